import { afterAll, expect, test } from 'vitest';
import { killRounds } from './kill-rounds.ts';
import { Folders } from './stage.ts';

const folders = new Folders();
afterAll(() => folders.remove());

test('F3: nothing acknowledged is lost, halved or doubled when the server is killed under load', { timeout: 120_000 }, async () => {
  const { acknowledged, sentAgain, faults } = await killRounds(await folders.withDemo(), 2);
  expect(faults).toEqual([]);
  expect(acknowledged).toBeGreaterThan(20);
  expect(sentAgain).toBeGreaterThan(0);
});
