import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { afterAll, expect, test } from 'vitest';
import { serve } from '../browser/harness.ts';
import { ask, enterDemo } from './feeders.ts';
import { Folders, quicklyRefused, soundness } from './stage.ts';
import { stopRounds } from './stop-rounds.ts';

const folders = new Folders();
afterAll(() => folders.remove());

test('F23: SIGTERM with requests in flight finishes them, refuses new ones, and leaves the store folded together', {
  timeout: 120_000,
}, async () => {
  const { acknowledged, longestMs, faults } = await stopRounds(await folders.withDemo(), 2);
  expect(faults).toEqual([]);
  expect(longestMs).toBeLessThanOrEqual(10_000);
  expect(acknowledged).toBeGreaterThan(20);
});

test('F22: a second server on the same folder is refused in words within two seconds, and the first goes on', async () => {
  const dataDir = await folders.withDemo();
  const first = await serve({ dataDir, keepData: true });
  const { exitCode, text, ms } = quicklyRefused(dataDir);
  expect([exitCode, ms <= 2000]).toEqual([5, true]);
  expect(text).toMatch(/already running on .*: stop it first/);
  expect((await ask(first.origin, 'GET', '/readyz')).status).toBe(200);
  await first.stop();
});

test('F22: the folder is free again after a kill', async () => {
  const dataDir = await folders.withDemo();
  const first = await serve({ dataDir, keepData: true });
  await first.stop('SIGKILL');
  const second = await serve({ dataDir, keepData: true });
  expect((await ask(second.origin, 'GET', '/readyz')).status).toBe(200);
  await second.stop();
});

test('an old demonstration is made anew behind the same address, and a fresh one is let be', { timeout: 120_000 }, async () => {
  const dataDir = await folders.withDemo();
  const store = new Database(join(dataDir, 'demo.db'));
  store.prepare("UPDATE applied_migration SET applied_at = strftime('%Y-%m-%dT%H:%M:%fZ', applied_at, '-4 days')").run();
  store.close();
  const server = await serve({ dataDir, keepData: true });
  const cookie = await enterDemo(server.origin);
  const renew = (as: string) => ask(server.origin, 'POST', '/api/demonstration', { body: {}, cookie: as });
  expect(JSON.parse((await ask(server.origin, 'GET', '/api/session', { cookie })).text).programme.demoIsOld).toBe(true);
  expect((await renew(cookie)).status).toBe(204);
  let after: { programme: { demoIsOld: boolean }; person: unknown } | undefined;
  for (let tries = 0; tries < 200 && after?.programme.demoIsOld !== false; tries += 1) {
    await sleep(250);
    const answer = await ask(server.origin, 'GET', '/api/session', { cookie }).catch(() => undefined);
    if (answer?.status === 200) after = JSON.parse(answer.text);
  }
  expect(after).toMatchObject({ person: null, programme: { demoIsOld: false } });
  expect(JSON.parse((await renew(await enterDemo(server.origin))).text).code).toBe('demo-is-fresh');
  await server.stop();
  expect(soundness(dataDir)).toMatchObject({ integrity: 'ok', strays: [] });
});
