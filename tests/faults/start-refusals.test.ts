import { createHash } from 'node:crypto';
import { chmodSync, chownSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { serve } from '../browser/harness.ts';
import { type Ended, Folders, quicklyRefused, startRefused } from './stage.ts';

const folders = new Folders();
// A demonstration that is not made yet is made outside of the tests' time.
beforeAll(async () => void (await folders.withDemo()), 120_000);
afterAll(() => folders.remove());

const hashOf = (file: string): string => createHash('sha256').update(readFileSync(file)).digest('hex');

/** One plain sentence or two, with what to do, and no stack. */
function expectWords({ text, exitCode }: Ended, words: RegExp, code: number): void {
  const lines = text.trim().split('\n');
  expect(lines.at(-1)).toMatch(words);
  expect(lines.at(-1)).toMatch(/^middenry: [A-Z].*\.$/);
  expect(text).not.toMatch(/\n\s+at /);
  expect(exitCode).toBe(code);
}

test('F33: a store of a newer program is refused with exit 3 and not a byte of it changes', async () => {
  const dataDir = await folders.withDemo();
  const file = join(dataDir, 'demo.db');
  const db = new Database(file);
  db.pragma('user_version = 9999');
  db.pragma('wal_checkpoint(TRUNCATE)');
  db.close();
  const before = hashOf(file);
  expectWords(startRefused(dataDir), /newer Middenry: it needs schema 9999/, 3);
  expect(hashOf(file)).toBe(before);
});

test('F16: a store that is no database is refused and left as it is', async () => {
  const dataDir = await folders.withDemo();
  const file = join(dataDir, 'demo.db');
  writeFileSync(file, 'this was never a database, and must not be turned into one\n'.repeat(100));
  const before = hashOf(file);
  expectWords(startRefused(dataDir), /Cannot (read|open) .*restore/, 2);
  expect(hashOf(file)).toBe(before);
});

test.each([
  ['missing', (file: string) => rmSync(file)],
  ['empty', (file: string) => truncateSync(file)],
])("F16: one's own programme that is %s is never quietly begun anew", async (state, harm) => {
  const dataDir = folders.fresh();
  const first = await serve({ dataDir, keepData: true, flags: ['--own'] });
  await first.stop();
  const file = join(dataDir, 'own.db');
  harm(file);
  expectWords(startRefused(dataDir, { flags: ['--own'] }), new RegExp(`Cannot find your programme: .* is ${state}`), 4);
});

test('F25: a data folder that cannot be one is refused with its path and the way out', () => {
  const file = join(folders.fresh(), 'a-file');
  writeFileSync(file, '');
  expectWords(startRefused(join(file, 'data')), /Cannot write into .*a-file\/data .*DATA_DIR/, 2);
});

const isRoot = process.getuid?.() === 0;
const NOBODY = 65_534;
/** Somebody else's, where we may give things away; else at least not to be written. */
const takeAway = (path: string, mode: number) => (isRoot ? chownSync(path, NOBODY, NOBODY) : chmodSync(path, mode));

test.each([
  ['a folder that may only be read', '', (dir: string) => chmodSync(dir, 0o555)],
  ["somebody else's folder", '', (dir: string) => takeAway(dir, 0o555)],
  ["a log that somebody else's command left behind", '/demo.db-wal', (dir: string) => writeFileSync(join(dir, 'demo.db-wal'), '')],
  ["somebody else's store", '/demo.db', () => undefined],
])('F25: %s is refused within two seconds by its path, with what to do', async (_, path, prepare) => {
  const dataDir = await folders.withDemo();
  prepare(dataDir);
  if (path !== '') takeAway(dataDir + path, 0o444);
  const ended = quicklyRefused(dataDir);
  chmodSync(dataDir, 0o755);
  expectWords(ended, new RegExp(`Cannot write into ${dataDir}${path} \\(EACCES\\): .*chown -R \\d+ ${dataDir}.*DATA_DIR`), 2);
  expect(ended.ms).toBeLessThanOrEqual(2000);
});

test('E15: plain http beyond this machine is refused with the settings that are missing', () => {
  expectWords(startRefused(folders.fresh(), { env: { HOST: '0.0.0.0' } }), /PUBLIC_URL=https:\/\/.*TRUSTED_PROXY=/, 2);
});

test.each([
  ['a port that is none', { PORT: 'http' }, [], /PORT must be a number/],
  ['an answer that is neither yes nor no', { PUBLIC_DEMO: 'perhaps' }, [], /PUBLIC_DEMO must be yes or no/],
  ['a public address that is none', { PUBLIC_URL: 'bins' }, [], /PUBLIC_URL must be an address/],
  ['a proxy that is no address', { TRUSTED_PROXY: 'the proxy' }, [], /TRUSTED_PROXY must hold IP addresses/],
  ['a flag that nobody knows', {}, ['--fast'], /--fast is no setting/],
])('F1: %s is refused by name', (_, env, flags, words) => {
  expectWords(startRefused(folders.fresh(), { env: env as Record<string, string>, flags }), words, 2);
});

test('F1: a port that is taken is refused by number', async () => {
  const dataDir = await folders.withDemo();
  const other = createServer();
  await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
  const { port } = other.address() as { port: number };
  const ended = startRefused(dataDir, { env: { PORT: String(port) } });
  other.close();
  expectWords(ended, new RegExp(`Cannot listen on port ${port} `), 2);
});
