import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root } from '../../scripts/lib.mjs';
import { serve } from '../browser/harness.ts';
import { ask, enterDemo, uuid7 } from './feeders.ts';
import { Folders, startRefused } from './stage.ts';

const folders = new Folders();
// A demonstration that is not made yet is made outside of the tests' time.
beforeAll(async () => void (await folders.withDemo()), 120_000);
afterAll(() => folders.remove());

/** The program of a release to come: this one, with one migration more. */
function nextRelease(): string {
  const tree = folders.fresh();
  mkdirSync(join(tree, 'apps/api'), { recursive: true });
  cpSync(join(root, 'apps/api/build'), join(tree, 'apps/api/build'), { recursive: true });
  cpSync(join(root, 'migrations'), join(tree, 'migrations'), { recursive: true });
  for (const name of ['node_modules', 'shared', 'package.json']) symlinkSync(join(root, name), join(tree, name));
  writeFileSync(join(tree, 'migrations/9998_of_a_release_to_come.sql'), "ALTER TABLE site ADD COLUMN later TEXT NOT NULL DEFAULT '';");
  return join(tree, 'apps/api/build/server.mjs');
}

function middenry(dataDir: string, ...args: string[]): { readonly code: number | null; readonly text: string } {
  const env = { PATH: process.env.PATH ?? '', DATA_DIR: dataDir };
  const words = ['--no-deprecation', join(root, 'apps/api/build/cli.mjs'), ...args];
  const { status, stdout, stderr } = spawnSync(process.execPath, words, { env, encoding: 'utf8', timeout: 30_000 });
  return { code: status, text: `${stdout}${stderr}` };
}

test('F35: a start of the newer program updates, "rollback" of the older one goes back and says what came after', {
  timeout: 120_000,
}, async () => {
  const dataDir = await folders.withDemo();
  expect(middenry(dataDir, 'rollback', '--demo')).toEqual({ code: 2, text: expect.stringMatching(/nothing to go back from/) });
  const newer = await serve({ dataDir, keepData: true, serverFile: nextRelease() });
  const cookie = await enterDemo(newer.origin);
  const [bin] = (JSON.parse((await ask(newer.origin, 'GET', '/api/bins', { cookie })).text) as { items: { id: string }[] }).items;
  const id = uuid7();
  const body = { id, binId: bin!.id, happenedAt: new Date().toISOString(), note: 'made after the update' };
  expect((await ask(newer.origin, 'POST', '/api/checks', { cookie, body })).status).toBe(201);
  await newer.stop();

  expect(startRefused(dataDir)).toMatchObject({ exitCode: 3, text: expect.stringMatching(/needs schema 9998/) });
  expect(middenry(dataDir, 'rollback', '--demo')).toEqual({
    code: 0,
    text: expect.stringMatching(
      /^Went back to .*before-schema-9998-.*\.db: \d+ entries and \d+ people\..*\nSince then 1 more entries .*before-restore-/,
    ),
  });
  const older = await serve({ dataDir, keepData: true });
  expect((await ask(older.origin, 'GET', '/readyz')).status).toBe(200);
  expect((await ask(older.origin, 'GET', `/api/entries/${id}`, { cookie: await enterDemo(older.origin) })).status).toBe(404);
  await older.stop();
});
