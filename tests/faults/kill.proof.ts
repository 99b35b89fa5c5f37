import { afterAll, expect, test } from 'vitest';
import { killRounds } from './kill-rounds.ts';
import { Folders } from './stage.ts';

const folders = new Folders();
afterAll(() => folders.remove());

test('F3 at length: 200 kills', async () => {
  const { acknowledged, sentAgain, faults } = await killRounds(await folders.withDemo(), 200);
  console.log(`200 kills: ${acknowledged} acknowledged, ${sentAgain} sent again, ${faults.length} faults`);
  expect(faults).toEqual([]);
  expect(acknowledged).toBeGreaterThan(2_500);
  expect(sentAgain).toBeGreaterThan(50);
});
