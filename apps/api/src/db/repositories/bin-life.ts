import { all, one } from '../rows.ts';
import type { Store } from '../store.ts';

export interface LifeSums {
  readonly fedG: number;
  readonly feedings: number;
  readonly harvestedG: number;
  readonly harvests: number;
  readonly checks: number;
  readonly keepers: number;
}

/** What stands in a bin's log added up, without what was undone. */
export const lifeSums = (store: Store, binId: string): LifeSums =>
  one<LifeSums>(
    store,
    `SELECT ifnull(sum((SELECT sum(i.grams) FROM feeding_item i WHERE i.entry_id = e.id)), 0) AS fedG,
       count(*) FILTER (WHERE e.kind = 'feeding') AS feedings,
       ifnull(sum((SELECT h.grams FROM harvest h WHERE h.entry_id = e.id)), 0) AS harvestedG,
       count(*) FILTER (WHERE e.kind = 'harvest') AS harvests,
       count(*) FILTER (WHERE e.kind = 'check') AS checks,
       count(DISTINCT e.person_id) AS keepers
     FROM entry e WHERE e.bin_id = ? AND e.undone_at IS NULL`,
    binId,
  ) as LifeSums;

export interface NotedRow {
  readonly localDate: string;
  readonly kind: 'feeding' | 'check' | 'harvest' | 'care' | 'note' | 'worms';
  readonly times: number;
}

/** How often each kind of entry was noted on each day from one on, oldest first. */
export const notedDays = (store: Store, range: { binId: string; from: string }): NotedRow[] =>
  all<NotedRow>(
    store,
    `SELECT local_date AS localDate, kind, count(*) AS times FROM entry
     WHERE bin_id = @binId AND local_date >= @from AND undone_at IS NULL GROUP BY local_date, kind ORDER BY local_date, kind`,
    range,
  );

export interface LifeChangeRow {
  readonly entryId: string;
  readonly localDate: string;
  readonly what: string;
  readonly exposure: string | null;
  readonly grams: number | null;
  readonly share: number | null;
  readonly otherBinCode: string | null;
}

/** Entries that changed what the bin is or whose worms it holds, newest first. */
export const lifeChanges = (store: Store, binId: string): LifeChangeRow[] =>
  all<LifeChangeRow>(
    store,
    `SELECT e.id AS entryId, e.local_date AS localDate, e.happened_at AS happenedAt, c.action AS what, c.exposure, NULL AS grams,
       NULL AS share, NULL AS otherBinCode
     FROM entry e JOIN care c ON c.entry_id = e.id
     WHERE e.bin_id = @binId AND e.undone_at IS NULL AND c.action IN ('moved', 'rested', 'woken', 'retired')
     UNION ALL
     SELECT e.id, e.local_date, e.happened_at, w.direction, NULL, w.grams, w.share, b.code
     FROM entry e JOIN worm_move w ON w.entry_id = e.id LEFT JOIN bin b ON b.id = w.other_bin_id
     WHERE e.bin_id = @binId AND e.undone_at IS NULL ORDER BY happenedAt DESC`,
    { binId },
  );
