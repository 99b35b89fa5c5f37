/** Formulas in what is brought in are read as the value that stands beside them, or refused; none is ever worked out or followed (criteria G11). */
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast } from '../cast.ts';
import { formulaBook, textCell } from './formula-book.ts';
import { formulaPayloads } from './payloads.ts';
import { csvFault, looksLikeFormula } from './rfc4180.ts';

let cast: Cast;
let far: Server;
let asked = 0;
beforeAll(async () => {
  cast = await openCast();
  far = createServer((_, answer) => {
    asked += 1;
    answer.end('9');
  });
  await new Promise<void>((done) => far.listen(0, '127.0.0.1', done));
});
afterAll(async () => {
  far.close();
  await cast.close();
});

const call = (method: string, url: string, body?: unknown) => cast.call('coordinator', method, url, body);
const send = (content: Buffer) =>
  call('POST', '/api/imports', { id: freshId(), kind: 'feedings', fileName: 'log', content: content.toString('base64') });
const xml = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');

/** Each amount on a line of its own, from line 2 on. */
const bookOf = (cells: readonly ((at: string) => string)[]): Promise<Buffer> =>
  formulaBook(
    [
      ['Date', 'Bin', 'Food', 'Weight (kg)'].map((word, at) => textCell('ABCD'[at]! + 1, word)).join(''),
      ...cells.map(
        (cell, at) => ['2026-07-25', 'T1', 'Apple'].map((word, c) => textCell('ABC'[c]! + (at + 2), word)).join('') + cell(`D${at + 2}`),
      ),
    ]
      .map((row, at) => `<row r="${at + 1}">${row}</row>`)
      .join(''),
  );
const formula =
  (text: string, value: string, type = '') =>
  (at: string) =>
    `<c r="${at}"${type}><f>${xml(text)}</f>${value}</c>`;

describe('a workbook with formulas', () => {
  test('G11: gives the value that its program left, and nothing where it left none or a fault', async () => {
    const { port } = far.address() as AddressInfo;
    const shown = await send(
      await bookOf([
        formula('1+1', '<v>3</v>'),
        formula('[1]Other!A1', '<v>7</v>'),
        (at) => `<c r="${at}"><f t="shared" si="0"/><v>5</v></c>`,
        formula('1+1', ''),
        formula(`WEBSERVICE("http://127.0.0.1:${port}/")`, '', ' t="str"'),
        formula('A99', '<v>#REF!</v>', ' t="e"'),
        formula('1/0', '<v>#DIV/0!</v>', ' t="e"'),
        formula("cmd|'/C calc'!A0", '<v>calc</v>', ' t="str"'),
        formula('TRUE()', '<v>1</v>', ' t="b"'),
      ]),
    );
    // Three is what stands there: to work 1+1 out would give two.
    expect(shown.body.ready.map(({ row, massKg }: { row: number; massKg: number }) => [row, massKg])).toEqual([
      [2, 3],
      [3, 7],
      [4, 5],
    ]);
    const faults = shown.body.refused.map(({ row, faults: [one] }: { row: number; faults: object[] }) => ({ row, ...one }));
    expect(faults).toEqual([
      { row: 5, field: 'amount', value: '', reason: 'no-amount' },
      { row: 6, field: 'amount', value: '', reason: 'no-amount' },
      { row: 7, field: 'amount', value: '#REF!', reason: 'not-a-number' },
      { row: 8, field: 'amount', value: '#DIV/0!', reason: expect.any(String) },
      { row: 9, field: 'amount', value: 'calc', reason: expect.any(String) },
      { row: 10, field: 'amount', value: 'true', reason: 'not-a-number' },
    ]);
    expect(asked).toBe(0);
    // That nobody asked means something only where asking is heard.
    await fetch(`http://127.0.0.1:${port}/`);
    expect(asked).toBe(1);
    await call('DELETE', `/api/imports/${shown.body.id}`);
  });
});

describe('formulas as text', () => {
  const line = (cells: readonly string[]): string => cells.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(',');

  test('G11: as an amount each is refused with row, column and reason, and the list of faults is disarmed for another reader', async () => {
    const rows = formulaPayloads.map((amount) => line(['2026-07-25', 'T1', 'Apple', amount]));
    const shown = await send(Buffer.from([line(['Date', 'Bin', 'Food', 'Weight (kg)']), ...rows].join('\n')));
    expect([shown.body.counts.refused, shown.body.counts.ready]).toEqual([formulaPayloads.length, 0]);
    const { text } = await call('GET', `/api/imports/${shown.body.id}/refused.csv`);
    expect(csvFault(text.slice(1))).toBeUndefined();
    const read = parse(text, { bom: true, columns: true }) as { column: string; value: string; reason: string }[];
    expect(read.map(({ column }) => column)).toEqual(formulaPayloads.map(() => 'amount'));
    expect(read.filter(({ value }) => looksLikeFormula(value))).toEqual([]);
    expect(read.every(({ reason }) => reason !== '')).toBe(true);
    // Byte for byte too: no cell of the file begins with a sign that starts a formula.
    expect(/(^|[\n,])"?[=+\-@]/.test(text.slice(1))).toBe(false);
    await call('DELETE', `/api/imports/${shown.body.id}`);
  });

  test('G11: as a note each is kept as the text that it is', async () => {
    const notes = formulaPayloads.filter((text) => !/\s$|^\s|\r/.test(text));
    const rows = notes.map((note, at) => line(['2026-07-25', 'T1', 'Apple', String(at + 1), note]));
    const shown = await send(Buffer.from([line(['Date', 'Bin', 'Food', 'Weight (kg)', 'Notes']), ...rows].join('\n')));
    await call('POST', `/api/imports/${shown.body.id}/taken`, {});
    const { items } = (await call('GET', `/api/bins/${BINS.tote}/entries?limit=50`)).body as { items: { note: string }[] };
    expect(items.map(({ note }) => note).sort()).toEqual([...notes].sort());
    await call('DELETE', `/api/imports/${shown.body.id}`);
  });
});
