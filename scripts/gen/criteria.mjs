// docs/reference/criteria.md: which acceptance criterion is held by which test, read from the names of the tests themselves.
import { basename, dirname } from 'node:path';
import { filesUnder, fromRoot } from '../lib.mjs';

/** How many criteria each part of the acceptance criteria has. */
const PARTS = {
  A: { about: 'The board', count: 20 },
  B: { about: 'At the bin, with no signal', count: 29 },
  C: { about: 'Shifts and people', count: 30 },
  D: { about: 'Season and figures', count: 15 },
  E: { about: 'Security', count: 21 },
  F: { about: 'Reliability', count: 36 },
  G: { about: 'Data in and out', count: 13 },
  H: { about: 'What people complain of elsewhere', count: 27 },
};

/** What no program here can judge, and where the script for people stands. */
const BY_PEOPLE = {
  A6: 'docs/glance-trial.md',
  B1: 'docs/field-trial.md',
  B19: 'docs/field-trial.md',
  B20: 'docs/field-trial.md',
  B27: 'docs/field-trial.md',
};
/** Complaints whose own test is that of another criterion. */
const HELD_BY = {
  H6: ['C11', 'C14'],
  H7: ['C1'],
  H8: ['B13'],
  H12: ['F16', 'F32', 'F33', 'F35'],
  H13: ['F34'],
  H16: ['F1'],
  H17: ['F12'],
  H19: ['B2', 'B5'],
  H20: ['E5', 'B29'],
  H22: ['B22', 'E12', 'E13'],
  H23: ['G6', 'G7', 'G8', 'G9'],
  H24: ['G1'],
  H25: ['C27'],
};
/** Measured, not tested: `npm run bench -- NAME`, figures in docs/reference/speed.md. */
const BENCHED = { A19: 'board-phone', C17: 'calendar', D1: 'season', F27: 'load', F28: 'load', G11: 'carry' };
/** Needs a machine whose current is cut, or a day of waiting. */
const NOT_HERE = { F4: 'cutting the current of a machine', F29: 'a day of load' };
const DROPPED = new Set(['F21', 'F36', 'G13', 'H10']);

const NAME =
  /\b(?:describe|it|test)(?:\.\w+)*\(\s*(?:(?:\[[\s\S]*?\]|[\w.]+(?:\([\w.]*\))?)\)\(\s*)?(?:'((?:\\.|[^'\\\n])*)'|"((?:\\.|[^"\\\n])*)"|`((?:\\.|[^`\\])*)`)/g;
const IDS_IN_FRONT = /^((?:[A-H]\d{1,2}(?:, |,| and | )?)+)(?=[: ]|$)/;
const ID_BEHIND = /\(([A-H]\d{1,2})\)$/;

/** The ids that a test's name begins with ("C1, C2: ...") or ends with ("... (A5)"). */
export function idsOf(name) {
  const front = IDS_IN_FRONT.exec(name)?.[1] ?? '';
  const behind = ID_BEHIND.exec(name)?.[1] ?? '';
  return `${front} ${behind}`.match(/[A-H]\d{1,2}/g) ?? [];
}

/** Every test name of a file, as it is written. */
export const namesIn = (text) => [...text.matchAll(NAME)].map(([, single, double, template]) => single ?? double ?? template);

/** Rules that every file is held to are tests too, by their names. */
const RULES = 'tests/tidy/conventions.test.ts';
const ruleNamesIn = (text) => [...text.matchAll(/^ {2}name: '([^'\n]+)'/gm)].map(([, name]) => name);

/** Rows of the table of long proofs: criterion, file, date, result. */
const longRuns = (text) =>
  text
    .split('\n')
    .map((line) => line.split('|').map((cell) => cell.trim()))
    .filter((cells) => /^[A-H]\d/.test(cells[1] ?? ''));

const isRun = (path) => /\.(test|proof)\.ts$/.test(path);

function filesById(read) {
  const found = new Map();
  const paths = filesUnder(['tests', 'apps', 'packages', 'scripts']).map(fromRoot);
  const runs = paths.filter(isRun);
  // Tests that stand in a file of their own count for whichever file takes them in.
  const runBy = (path) =>
    isRun(path)
      ? [path]
      : runs.filter((one) => dirname(one) === dirname(path) && new RegExp(`from '\\./${basename(path)}'`).test(read(one)));
  for (const path of paths) {
    if (!isRun(path) && !/^tests\/.*\.ts$/.test(path)) continue;
    const isRule = path.startsWith('tests/tidy/rules/');
    const ids = (isRule ? ruleNamesIn : namesIn)(read(path)).flatMap(idsOf);
    for (const file of ids.length === 0 ? [] : isRule ? [RULES] : runBy(path))
      for (const id of ids) found.set(id, (found.get(id) ?? new Set()).add(file));
  }
  return found;
}

const listed = (files) => files.map((path) => `\`${path}\``).join(' ');

function row(id, files, runs) {
  const short = files.filter((path) => path.endsWith('.test.ts'));
  const long = files.filter((path) => path.endsWith('.proof.ts'));
  const seen = runs
    .filter(([, ids]) => ids.match(/[A-H]\d{1,2}/g).includes(id))
    .map(([, , , date, result]) => (result.startsWith('**red**') ? `${date}, red` : date));
  const people = BY_PEOPLE[id];
  const also = [
    ...(HELD_BY[id] ? [`as ${HELD_BY[id].join(', ')}`] : []),
    ...(people === undefined ? [] : [`by people: \`${people}\``]),
    ...(BENCHED[id] ? [`measured: \`npm run bench -- ${BENCHED[id]}\``] : []),
    ...(NOT_HERE[id] ? [`not by a program here: ${NOT_HERE[id]}`] : []),
    ...(DROPPED.has(id) ? ['dropped'] : []),
  ];
  const said = [listed(short), ...also].filter(Boolean).join('; ');
  return `| ${id} | ${said || (long.length > 0 ? '' : 'no test yet')} | ${listed(long)} | ${seen.join(', ')} |`;
}

/** @param {(path: string) => string} read a file of the project by its path from the root */
export function criteriaText(read) {
  const byId = filesById(read);
  const runs = longRuns(read('docs/reference/proofs.md'));
  const ids = Object.entries(PARTS).flatMap(([part, { count }]) => Array.from({ length: count }, (_, n) => `${part}${n + 1}`));
  const held = ids.filter((id) => byId.has(id));
  const tables = Object.entries(PARTS).map(([part, { about, count }]) => {
    const rows = Array.from({ length: count }, (_, n) => `${part}${n + 1}`).map((id) => row(id, [...(byId.get(id) ?? [])].sort(), runs));
    return `## ${part}: ${about}\n\n| Criterion | In \`npm test\` | In \`npm run proof\` | Long form last seen |\n| --- | --- | --- | --- |\n${rows.join('\n')}`;
  });
  return `# Criteria and the tests that hold them

Made by \`npm run gen\` from the names of the tests: a name that begins with a criterion's id, or ends with it in brackets, claims it. A test here shows that part of the criterion is held; how much of it, the test says. ${held.length} of ${ids.length} have one. The dates come from [proofs.md](proofs.md), which says what was seen; red is a long form that failed.

${tables.join('\n\n')}
`;
}
