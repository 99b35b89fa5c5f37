import { all, one } from '../rows.ts';
import type { Store } from '../store.ts';

/** A number that grows with each entry that the model is told of: noted, corrected or undone at a bin. What somebody only wrote down is none. */
export const logStamp = (store: Store, binId: string): number =>
  one<{ stamp: number }>(store, "SELECT ifnull(sum(revision), 0) AS stamp FROM entry WHERE bin_id = ? AND kind <> 'note'", binId)?.stamp ??
  0;

/** Dates of shifts that are to feed a bin, the soonest first. */
export const feedingShiftDays = (store: Store, range: { binId: string; from: string; to: string }): string[] =>
  all<{ localDate: string }>(
    store,
    `SELECT DISTINCT s.local_date AS localDate FROM shift_duty d JOIN shift s ON s.id = d.shift_id
     WHERE d.bin_id = @binId AND d.kind = 'feed' AND s.cancelled_at IS NULL AND s.local_date BETWEEN @from AND @to
     ORDER BY s.local_date`,
    range,
  ).map(({ localDate }) => localDate);

/** What an accepted plan of scraps on offer puts into a bin on a day, and into which of its zones. */
export interface IntakeFeedingRow {
  readonly on: string;
  readonly part: 'scraps' | 'bedding';
  readonly materialId: string;
  readonly grams: number;
  /** JSON; null where the plan names no zones. */
  readonly zones: string | null;
}

export const intakeFeedings = (store: Store, range: { binId: string; from: string; to: string }): IntakeFeedingRow[] =>
  all<IntakeFeedingRow>(
    store,
    `SELECT s.local_date AS "on", f.part, f.material_id AS materialId, f.grams,
       (SELECT json_extract(b.value, '$.zones') FROM intake_plan i, json_each(i.plan, '$.bins') b
        WHERE i.id = f.plan_id AND json_extract(b.value, '$.id') = f.bin_id) AS zones
     FROM shift_feeding f JOIN shift s ON s.id = f.shift_id
     WHERE f.bin_id = @binId AND s.cancelled_at IS NULL AND s.local_date BETWEEN @from AND @to
       AND EXISTS (SELECT 1 FROM shift_duty d WHERE d.shift_id = s.id AND d.bin_id = f.bin_id AND d.kind = 'feed')
     ORDER BY s.local_date, s.id, f.part DESC, f.grams DESC, f.material_id`,
    range,
  );

/** Whether somebody noted, corrected or undid anything at a bin since an instant. */
export const hasNotedSince = (store: Store, by: { binId: string; personId: string; from: string }): boolean =>
  one(
    store,
    `SELECT 1 FROM entry e WHERE e.bin_id = @binId AND (
       (e.person_id = @personId AND e.received_at >= @from) OR (e.undone_by = @personId AND e.undone_at >= @from)
       OR EXISTS (SELECT 1 FROM entry_revision r WHERE r.entry_id = e.id AND r.replaced_by = @personId AND r.replaced_at >= @from))
     LIMIT 1`,
    by,
  ) !== null;
