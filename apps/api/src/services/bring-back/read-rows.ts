/** Rows of a table as an export holds them: one JSON object on a line, read one at a time. */
import type { Readable } from 'node:stream';
import { StringDecoder } from 'node:string_decoder';
import type { Value } from '../../db/portable/snapshot.ts';
import { refuseFile } from './refusal.ts';

const MOST_LINE_CHARACTERS = 16 * 1024 * 1024;

export type Row = Readonly<Record<string, Value>>;

export async function* rowsIn(name: string, pieces: Readable): AsyncGenerator<Row> {
  for await (const line of linesIn(name, pieces)) {
    if (line === '[' || line === ']' || line === '[]' || line === '') continue;
    yield rowOf(name, line.endsWith(',') ? line.slice(0, -1) : line);
  }
}

async function* linesIn(name: string, pieces: Readable): AsyncGenerator<string> {
  const decoder = new StringDecoder('utf8');
  let rest = '';
  for await (const piece of pieces) {
    const lines = (rest + decoder.write(piece as Buffer)).split('\n');
    rest = lines.pop() ?? '';
    if (rest.length > MOST_LINE_CHARACTERS) throw refuseFile((w) => w.longLine(name));
    yield* lines;
  }
  yield rest + decoder.end();
}

function rowOf(name: string, line: string): Row {
  try {
    const row = JSON.parse(line) as Row;
    const isPlain = (value: unknown) => value === null || typeof value === 'string' || typeof value === 'number';
    if (row !== null && typeof row === 'object' && !Array.isArray(row) && Object.values(row).every(isPlain)) return row;
  } catch {
    // Said below.
  }
  throw refuseFile((w) => w.notOurs(name));
}
