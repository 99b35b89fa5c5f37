/** What the model expected of castings before somebody weighed them. */
import type { HarvestExpected } from '@middenry/contract';
import { type DayRow, gramsFromKg, kgFromGrams } from '@middenry/domain';
import type { BinRow } from '../db/repositories/bin.ts';
import { harvestExpected, harvestsToExpect, insertHarvestExpected } from '../db/repositories/harvest-expected.ts';
import { type Store, write } from '../db/store.ts';
import { addDays, daysBetween } from './local-time.ts';

/**
 * Keeps of each harvest what stood in the bin on the evening before, which no harvest of that day has taught the model yet.
 *
 * @param history days of the bin as they were worked out, rising
 */
export function keepExpected(store: Store, bin: Pick<BinRow, 'id' | 'startedOn'>, history: readonly DayRow[]): void {
  const first = history[0]?.day;
  if (first === undefined) return;
  const castingsOn = new Map(history.map(({ day, castingsKgWb }) => [day, castingsKgWb]));
  const due = harvestsToExpect(store, bin.id, addDays(bin.startedOn, first + 1)).flatMap(({ entryId, localDate }) => {
    const castings = castingsOn.get(daysBetween(bin.startedOn, localDate) - 1);
    return castings === undefined ? [] : [{ entryId, castings }];
  });
  if (due.length === 0) return;
  write(store, () => {
    for (const { entryId, castings } of due) {
      const [lowG, midG, highG] = [castings.p10, castings.p50, castings.p90].map(gramsFromKg) as [number, number, number];
      insertHarvestExpected(store, entryId, { lowG, midG, highG });
    }
  });
}

export function expectedShape(store: Store, entryId: string): HarvestExpected | null {
  const row = harvestExpected(store, entryId);
  return row && { lowKg: kgFromGrams(row.lowG), midKg: kgFromGrams(row.midG), highKg: kgFromGrams(row.highG) };
}
