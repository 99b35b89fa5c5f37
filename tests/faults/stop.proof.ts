import { afterAll, expect, test } from 'vitest';
import { Folders } from './stage.ts';
import { stopRounds } from './stop-rounds.ts';

const folders = new Folders();
afterAll(() => folders.remove());

test('F23 at length: 100 stops', async () => {
  const { acknowledged, refused, longestMs, faults } = await stopRounds(await folders.withDemo(), 100);
  console.log(`100 stops: ${acknowledged} acknowledged, ${refused} refused, longest ${longestMs.toFixed(0)} ms, ${faults.length} faults`);
  expect(faults).toEqual([]);
  expect(acknowledged).toBeGreaterThan(1_500);
  expect(longestMs).toBeLessThanOrEqual(10_000);
});
