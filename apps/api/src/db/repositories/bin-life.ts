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

export interface KeepingRow {
  readonly personId: string | null;
  /** null: erased. */
  readonly personName: string | null;
  readonly firstOn: string;
  readonly lastOn: string;
  readonly times: number;
}

/** Who noted something at a bin, from when to when: those who noted most, the latest first. */
export const keepersOf = (store: Store, binId: string, most: number): KeepingRow[] =>
  all<KeepingRow>(
    store,
    `SELECT * FROM (
       SELECT e.person_id AS personId, p.name AS personName, min(e.local_date) AS firstOn, max(e.local_date) AS lastOn, count(*) AS times
       FROM entry e LEFT JOIN person p ON p.id = e.person_id
       WHERE e.bin_id = @binId AND e.undone_at IS NULL GROUP BY e.person_id ORDER BY times DESC, firstOn LIMIT @most)
     ORDER BY lastOn DESC, firstOn DESC, personId`,
    { binId, most },
  );

export interface LaidRow {
  readonly zone: number;
  readonly materialId: string;
}

/** What was fed last in each zone, the most of it first. */
export const laidLast = (store: Store, binId: string): LaidRow[] =>
  all<LaidRow>(
    store,
    `SELECT f.zone, i.material_id AS materialId FROM feeding f JOIN feeding_item i ON i.entry_id = f.entry_id
     WHERE f.entry_id IN (
       SELECT id FROM (
         SELECT e.id, row_number() OVER (PARTITION BY g.zone ORDER BY e.happened_at DESC, e.id DESC) AS back
         FROM entry e JOIN feeding g ON g.entry_id = e.id WHERE e.bin_id = @binId AND e.undone_at IS NULL)
       WHERE back = 1)
     GROUP BY f.zone, i.material_id ORDER BY f.zone, sum(i.grams) DESC, min(i.seq)`,
    { binId },
  );

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
