import { all, one } from '../rows.ts';
import type { Store } from '../store.ts';

/** A number that grows with each entry noted, corrected or undone at a bin. */
export const logStamp = (store: Store, binId: string): number =>
  one<{ stamp: number }>(store, 'SELECT ifnull(sum(revision), 0) AS stamp FROM entry WHERE bin_id = ?', binId)?.stamp ?? 0;

/** Dates of shifts that are to feed a bin, the soonest first. */
export const feedingShiftDays = (store: Store, range: { binId: string; from: string; to: string }): string[] =>
  all<{ localDate: string }>(
    store,
    `SELECT DISTINCT s.local_date AS localDate FROM shift_duty d JOIN shift s ON s.id = d.shift_id
     WHERE d.bin_id = @binId AND d.kind = 'feed' AND s.cancelled_at IS NULL AND s.local_date BETWEEN @from AND @to
     ORDER BY s.local_date`,
    range,
  ).map(({ localDate }) => localDate);
