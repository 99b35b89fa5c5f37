/** The long work on whole files leaves the server's own thread alone (criteria F8): counted, not timed; `npm run proof -- backup-beside` times it. */
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { inWorker } from '../../apps/api/src/db/keep/beside.ts';
import { factsOf, type StoreFacts } from '../../apps/api/src/db/keep/facts.ts';
import type { KeepTask } from '../../apps/api/src/db/keep/keep-worker.ts';
import { type Proof, sha256Of, soundFacts } from '../../apps/api/src/db/keep/verify.ts';
import { type Cast, MIGRATIONS_DIR, openCast } from '../cast.ts';

const NODE_MODULES = new URL('../../node_modules', import.meta.url).pathname;
/** Enough for many steps of the copy. */
const NOTES = 4000;

let cast: Cast;
let dir: string;
let worker: string;
beforeAll(async () => {
  cast = await openCast();
  // In node_modules, so that the thread finds what the build leaves outside.
  dir = mkdtempSync(join(NODE_MODULES, '.middenry-keep-'));
  worker = join(dir, 'keep-worker.mjs');
  const entry = new URL('../../apps/api/src/db/keep/keep-worker.ts', import.meta.url).pathname;
  const shape = { bundle: true, format: 'esm', platform: 'node', target: 'node20' } as const;
  await build({ entryPoints: [entry], outfile: worker, ...shape, external: ['better-sqlite3'], logLevel: 'silent' });
  const note = cast.store.sqlite.prepare("INSERT INTO change (topic, subject) VALUES ('stuff', ?)");
  cast.store.sqlite.transaction(() => {
    for (let at = 0; at < NOTES; at += 1) note.run('x'.repeat(1000));
  })();
}, 60_000);
afterAll(async () => {
  await cast.close();
  rmSync(dir, { recursive: true, force: true });
});

/** How often this thread's loop comes round until the work is done, with a note each time. */
async function turnsBeside<T>(work: Promise<T>): Promise<{ told: T; turns: number }> {
  const note = cast.store.sqlite.prepare("INSERT INTO change (topic, subject) VALUES ('stuff', 'beside')");
  let turns = 0;
  const looking = setInterval(() => {
    note.run();
    turns += 1;
  }, 1);
  try {
    return { told: await work, turns };
  } finally {
    clearInterval(looking);
  }
}

const run = <T>(task: KeepTask) => inWorker<T>(task, worker);

test('F8: a copy is made, checked and summed up in another thread, as of one instant, while notes go on', async () => {
  const backup = vi.spyOn(Object.getPrototypeOf(cast.store.sqlite), 'backup');
  const part = join(dir, 'copy.db');
  const before = factsOf(cast.store.sqlite);
  const { told, turns } = await turnsBeside(run<Proof>({ task: 'copy', source: cast.store.sqlite.name, part }));
  const after = factsOf(cast.store.sqlite);
  expect(told.thread).toBeGreaterThan(0);
  expect(backup).not.toHaveBeenCalled();
  expect(turns).toBeGreaterThan(3);
  const changes = (facts: StoreFacts) => facts.rows.change!;
  expect(changes(after) - changes(before)).toBe(turns);
  // As of one instant: numbers without a gap from the first to the last, however many came meanwhile.
  const { facts, sha256 } = told.answer;
  expect(changes(facts)).toBe(facts.lastChange);
  expect(changes(facts)).toBeGreaterThanOrEqual(changes(before));
  expect(changes(facts)).toBeLessThan(changes(after));
  expect([soundFacts(part), sha256Of(part)]).toEqual([facts, sha256]);
});

test('F8: a store is checked, and a backup tried out, in another thread', async () => {
  const part = join(dir, 'tried.db');
  await run({ task: 'copy', source: cast.store.sqlite.name, part });
  const tried = await turnsBeside(run<{ ok: boolean }>({ task: 'drill', backup: part, migrationsDir: MIGRATIONS_DIR, now: cast.clock.at }));
  expect([tried.told.answer.ok, tried.told.thread > 0, tried.turns > 3]).toEqual([true, true, true]);
  const proven = await turnsBeside(run<Proof>({ task: 'prove', file: part }));
  expect([proven.told.answer.sha256, proven.told.thread > 0, proven.turns > 3]).toEqual([sha256Of(part), true, true]);
});

test('F8: what goes wrong in the other thread is said here', async () => {
  await expect(run({ task: 'prove', file: join(dir, 'none.db') })).rejects.toThrow(/unable to open|directory does not exist/);
});
