import { expect, it } from 'vitest';
import { castingsExpected, type WeighedHarvest } from './castings-expected.ts';

const harvest = (
  siteId: string,
  binId: string,
  localDate: string,
  grams: number,
  expected: WeighedHarvest['expected'],
): WeighedHarvest => ({
  ...{ siteId, binId, localDate, grams, expected },
});
const four = { low: 2500, mid: 4000, high: 6001 };
const nine = { low: 7000, mid: 9000, high: 12_000 };

it('D3: by hand: sites add up to the whole, a bin harvested twice a day is expected once, and what nobody expected is left out', () => {
  const told = castingsExpected([
    harvest('b', 'bin-1', '2026-09-10', 3000, four),
    // The rest of the same harvest: 3000 + 1250 = 4250 g of 4000 g.
    harvest('b', 'bin-1', '2026-09-10', 1250, four),
    harvest('b', 'bin-1', '2026-10-10', 3999, four),
    harvest('a', 'bin-2', '2026-09-10', 8000, nine),
    harvest('a', 'bin-3', '2026-09-11', 777, null),
  ]);
  // b: 3000 + 1250 + 3999 = 8249 g; 2 x 2500 = 5000, 2 x 4000 = 8000, 2 x 6001 = 12002 g.
  // All: 8249 + 8000 = 16249 g; 5000 + 7000 = 12000, 8000 + 9000 = 17000, 12002 + 12000 = 24002 g.
  expect(told).toEqual({
    ...{ harvests: 4, weighedG: 16_249, expectedG: { low: 12_000, mid: 17_000, high: 24_002 }, notExpected: 1 },
    bySite: [
      { key: 'a', harvests: 1, weighedG: 8000, expectedG: nine },
      { key: 'b', harvests: 3, weighedG: 8249, expectedG: { low: 5000, mid: 8000, high: 12_002 } },
    ],
  });
});

it('is nothing of nothing', () => {
  const none = { low: 0, mid: 0, high: 0 };
  expect(castingsExpected([])).toEqual({ harvests: 0, weighedG: 0, expectedG: none, bySite: [], notExpected: 0 });
});
