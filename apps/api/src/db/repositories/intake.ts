import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface IntakePlanRow {
  readonly id: string;
  readonly siteId: string;
  readonly siteName: string;
  readonly timeZone: string;
  readonly localDate: string;
  /** JSON of what was worked out. */
  readonly plan: string;
  readonly madeBy: string | null;
  readonly madeByName: string | null;
  readonly madeAt: string;
  readonly acceptedAt: string | null;
  readonly shiftId: string | null;
}
export interface StreamRow {
  readonly source: string;
  readonly materialId: string;
  readonly grams: number;
}

const READ = `SELECT i.id, i.site_id AS siteId, s.name AS siteName, s.time_zone AS timeZone, i.local_date AS localDate, i.plan,
    i.made_by AS madeBy, p.name AS madeByName, i.made_at AS madeAt, i.accepted_at AS acceptedAt, i.shift_id AS shiftId
  FROM intake_plan i JOIN site s ON s.id = i.site_id LEFT JOIN person p ON p.id = i.made_by`;

export const intakePlanById = (store: Store, id: string): IntakePlanRow | null => one<IntakePlanRow>(store, `${READ} WHERE i.id = ?`, id);

export const intakePlans = (store: Store, siteId: string | null): IntakePlanRow[] =>
  all<IntakePlanRow>(
    store,
    `${READ} WHERE @siteId IS NULL OR i.site_id = @siteId ORDER BY i.local_date DESC, i.made_at DESC, i.id LIMIT 50`,
    { siteId },
  );

export const streamsOf = (store: Store, planId: string): StreamRow[] =>
  all(store, 'SELECT source, material_id AS materialId, grams FROM intake_stream WHERE plan_id = ? ORDER BY seq', planId);

export function insertIntakePlan(
  store: Store,
  row: Pick<IntakePlanRow, 'id' | 'siteId' | 'localDate' | 'plan' | 'madeAt'> & { readonly madeBy: string },
  streams: readonly StreamRow[],
): void {
  run(
    store,
    `INSERT INTO intake_plan (id, site_id, local_date, plan, made_by, made_at)
     VALUES (@id, @siteId, @localDate, @plan, @madeBy, @madeAt)`,
    row,
  );
  streams.forEach((stream, seq) => {
    run(
      store,
      'INSERT INTO intake_stream (plan_id, seq, source, material_id, grams) VALUES (@planId, @seq, @source, @materialId, @grams)',
      { ...stream, seq, planId: row.id },
    );
  });
}

export const acceptIntakePlan = (store: Store, accept: { id: string; shiftId: string; at: string }): boolean =>
  run(store, 'UPDATE intake_plan SET accepted_at = @at, shift_id = @shiftId WHERE id = @id AND accepted_at IS NULL', accept) === 1;

export interface ShiftFeedingRow {
  readonly binId: string;
  readonly part: 'scraps' | 'bedding';
  readonly materialId: string;
  readonly grams: number;
}

export const feedingsOfShift = (store: Store, shiftId: string): ShiftFeedingRow[] =>
  all(
    store,
    'SELECT bin_id AS binId, part, material_id AS materialId, grams FROM shift_feeding WHERE shift_id = ? ORDER BY bin_id, part, grams DESC',
    shiftId,
  );

/** Two plans on one shift add up. */
export function addShiftFeeding(store: Store, row: ShiftFeedingRow & { readonly shiftId: string; readonly planId: string }): void {
  run(
    store,
    `INSERT INTO shift_feeding (shift_id, bin_id, part, material_id, grams, plan_id)
     VALUES (@shiftId, @binId, @part, @materialId, @grams, @planId)
     ON CONFLICT (shift_id, bin_id, part, material_id) DO UPDATE SET grams = grams + @grams`,
    row,
  );
}

/** Bedding that shifts to come will take from the store of a site. */
export const plannedBedding = (
  store: Store,
  from: string,
): { readonly siteId: string; readonly materialId: string; readonly grams: number }[] =>
  all(
    store,
    `SELECT s.site_id AS siteId, f.material_id AS materialId, sum(f.grams) AS grams FROM shift_feeding f JOIN shift s ON s.id = f.shift_id
     WHERE f.part = 'bedding' AND s.cancelled_at IS NULL AND s.local_date >= ? GROUP BY s.site_id, f.material_id`,
    from,
  );
