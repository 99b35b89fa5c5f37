/** `README.md`: the export explained to whoever finds it without our program. */
import type { Contents } from './contents.ts';
import { columnWords } from './dictionary/registry.ts';
import { csvName } from './format.ts';

export function readmeText({ head, tables, photos }: Contents): string {
  const columnsOf = (part: Contents['tables'][number]) =>
    part.wanted.columns.map((name) => `* \`${name}\`: ${columnWords(part.words, name) ?? ''}`).join('\n');
  return `# ${head.programme}

Everything that this programme of worm bins had noted on ${head.madeAt.slice(0, 10)}, written by Middenry. You need no special program to read it.

## What is here

* \`tables/\`: one CSV file (RFC 4180, UTF-8) for each table. Any spreadsheet opens them. An empty cell means that nothing is known.
* \`data/\`: the same tables as JSON, without any loss. Middenry reads these when the programme is brought back.
* \`photos/\`: ${photos.length} photos as JPEG. The table \`photo\` says what they show.${lostWords(head.photosLost)}
* \`datapackage.json\`: what every table and column means, for machines (Frictionless Data Package and Table Schema).
* \`checksums.sha256\`: a SHA-256 checksum of each file. \`sha256sum -c checksums.sha256\` compares them.
* \`export.json\`: which version wrote it, and how many rows each table has.

## How the tables hang together

A programme has sites. At a site stand bins. Whatever people do or see at a bin is a row of \`entry\`; its \`kind\` says in which table the rest is: a feeding in \`feeding\` and \`feeding_item\`, a check in \`bin_check\`, a harvest in \`harvest\`, other work in \`care\`, worms in \`worm_move\`. The column \`entry_id\` there is the \`id\` in \`entry\`. An entry with \`undone_at\` was taken back and does not count.

What went into the bins: add up \`grams\` in \`feeding_item\`. What came out: add up \`grams\` in \`harvest\`. Hours given: \`sign_up\` with \`attended\` 1, \`minutes\` there or else \`minutes\` of its \`shift\`.

## Rules

* Masses are whole grams, temperatures degrees Celsius, lengths metres.
* Instants are in UTC, such as 2026-11-25T08:40:00.000Z. Days and times without a zone are those of the site.
* Ids never change and are never used twice.

## What is not here

${Object.entries(head.leftOut)
  .map(([name, why]) => `* \`${name}\`: ${why}`)
  .join('\n')}

Nobody can sign in with what is in this file. It does hold names and addresses of people: keep it as you would keep those.

## How to bring it back

On a machine where no programme has begun: \`npx middenry import FILE.zip\`, then \`npx middenry reset-owner\` for a new password.

## Every table

${tables.map((part) => `### ${part.words.table}\n\n${part.words.row}. ${part.rows} rows in \`${csvName(part.words.table)}\`.\n\n${columnsOf(part)}`).join('\n\n')}
`;
}

const lostWords = (lost: number): string => (lost === 0 ? '' : ` ${lost} more were lost with a disk; their rows are left out.`);
