import { afterAll, expect, test } from 'vitest';
import { Folders } from './stage.ts';
import { stopRounds } from './stop-rounds.ts';

const folders = new Folders();
afterAll(() => folders.remove());

/** Servers beside each other, each with a folder of its own: most of a round is waiting for a start. */
const BESIDE = 4;
const ROUNDS = 25;

test('F23 at length: 100 stops', async () => {
  const of = await Promise.all(Array.from({ length: BESIDE }, async () => stopRounds(await folders.withDemo(), ROUNDS)));
  const sum = (what: 'acknowledged' | 'refused') => of.reduce((all, one) => all + one[what], 0);
  const longestMs = Math.max(...of.map((one) => one.longestMs));
  const faults = of.flatMap((one) => one.faults);
  console.log(
    `${sum('acknowledged')} acknowledged, ${sum('refused')} refused, longest ${longestMs.toFixed(0)} ms, ${faults.length} faults`,
  );
  expect(faults).toEqual([]);
  expect(sum('acknowledged')).toBeGreaterThan(1_500);
  expect(longestMs).toBeLessThanOrEqual(10_000);
});
