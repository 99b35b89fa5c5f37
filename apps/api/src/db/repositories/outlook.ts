import { one } from '../rows.ts';
import type { Store } from '../store.ts';

/** A number that grows with each entry noted, corrected or undone at a bin. */
export const logStamp = (store: Store, binId: string): number =>
  one<{ stamp: number }>(store, 'SELECT ifnull(sum(revision), 0) AS stamp FROM entry WHERE bin_id = ?', binId)?.stamp ?? 0;
