import type { DutyKind } from '@middenry/domain';
import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface ShiftCore {
  readonly id: string;
  readonly seriesId: string | null;
  readonly siteId: string;
  readonly title: string;
  readonly localDate: string;
  readonly localTime: string;
  readonly timeZone: string;
  readonly minutes: number;
  readonly places: number;
  /** For pupils, beside those of the adults. */
  readonly pupilPlaces: number;
  readonly note: string;
}

export interface ShiftRow extends ShiftCore {
  readonly siteName: string;
  readonly leastAdults: number;
  readonly leastAdultsReason: string;
  readonly cancelledAt: string | null;
  readonly revision: number;
  readonly taken: number;
}

export interface ShiftDutyRow {
  readonly binId: string;
  readonly kind: DutyKind;
}

const READ = `SELECT s.id, s.series_id AS seriesId, s.site_id AS siteId, s.title, s.local_date AS localDate, s.local_time AS localTime,
    s.time_zone AS timeZone, s.minutes, s.places, s.pupil_places AS pupilPlaces, s.least_adults AS leastAdults,
    s.least_adults_reason AS leastAdultsReason, s.note, s.cancelled_at AS cancelledAt, s.revision, site.name AS siteName,
    (SELECT count(*) FROM sign_up u WHERE u.shift_id = s.id AND u.given_back_at IS NULL) AS taken
  FROM shift s JOIN site ON site.id = s.site_id`;
const IN_ORDER = 'ORDER BY s.local_date, s.local_time, s.id';

export const shiftById = (store: Store, id: string): ShiftRow | null => one<ShiftRow>(store, `${READ} WHERE s.id = ?`, id);

export const shiftsOfSeries = (store: Store, seriesId: string): ShiftRow[] =>
  all<ShiftRow>(store, `${READ} WHERE s.series_id = ? ${IN_ORDER}`, seriesId);

export function shiftsBetween(
  store: Store,
  range: { from: string; to: string; siteId: string | null; personId: string | null },
): ShiftRow[] {
  return all<ShiftRow>(
    store,
    `${READ} WHERE s.local_date BETWEEN @from AND @to AND (@siteId IS NULL OR s.site_id = @siteId)
       AND (@personId IS NULL OR EXISTS (SELECT 1 FROM sign_up m WHERE m.shift_id = s.id AND m.person_id = @personId AND m.given_back_at IS NULL))
     ${IN_ORDER} LIMIT 1000`,
    range,
  );
}

/** Shifts with an open place between two days, soonest first. */
export function openShifts(store: Store, range: { from: string; to: string; siteId: string | null; limit: number }): ShiftRow[] {
  return all<ShiftRow>(
    store,
    `${READ} WHERE s.local_date BETWEEN @from AND @to AND (@siteId IS NULL OR s.site_id = @siteId) AND s.cancelled_at IS NULL
       AND (SELECT count(*) FROM sign_up u WHERE u.shift_id = s.id AND u.given_back_at IS NULL) < s.places
     ${IN_ORDER} LIMIT @limit`,
    range,
  );
}

export function insertSeries(store: Store, series: { id: string; siteId: string; createdAt: string }): void {
  run(store, 'INSERT INTO shift_series (id, site_id, created_at) VALUES (?, ?, ?)', series.id, series.siteId, series.createdAt);
}

export function insertShift(store: Store, row: ShiftCore & { readonly createdAt: string }): void {
  run(
    store,
    `INSERT INTO shift (id, series_id, site_id, title, local_date, local_time, time_zone, minutes, places, pupil_places, note, created_at)
     VALUES (@id, @seriesId, @siteId, @title, @localDate, @localTime, @timeZone, @minutes, @places, @pupilPlaces, @note, @createdAt)`,
    row,
  );
}

type ShiftUpdate = ShiftCore & Pick<ShiftRow, 'leastAdults' | 'leastAdultsReason'>;

export function updateShift(store: Store, row: ShiftUpdate): void {
  run(
    store,
    `UPDATE shift SET title = @title, local_date = @localDate, local_time = @localTime, minutes = @minutes, places = @places,
       pupil_places = @pupilPlaces, least_adults = @leastAdults, least_adults_reason = @leastAdultsReason, note = @note,
       revision = revision + 1 WHERE id = @id`,
    row,
  );
}

export function cancelShift(store: Store, id: string, at: string): boolean {
  return run(store, 'UPDATE shift SET cancelled_at = ?, revision = revision + 1 WHERE id = ? AND cancelled_at IS NULL', at, id) > 0;
}

export function setShiftBins(store: Store, shiftId: string, binIds: readonly string[]): void {
  run(store, 'DELETE FROM shift_bin WHERE shift_id = ?', shiftId);
  for (const binId of binIds) run(store, 'INSERT OR IGNORE INTO shift_bin (shift_id, bin_id) VALUES (?, ?)', shiftId, binId);
}

export function setShiftDuties(store: Store, shiftId: string, duties: readonly ShiftDutyRow[]): void {
  run(store, 'DELETE FROM shift_duty WHERE shift_id = ?', shiftId);
  for (const { binId, kind } of duties) {
    run(store, 'INSERT OR IGNORE INTO shift_duty (shift_id, bin_id, kind) VALUES (?, ?, ?)', shiftId, binId, kind);
  }
}

type OfShift<T> = T & { readonly shiftId: string };

export const binsOfShifts = (store: Store, shiftIds: readonly string[]): OfShift<{ readonly binId: string }>[] =>
  all(
    store,
    `SELECT sb.shift_id AS shiftId, sb.bin_id AS binId FROM shift_bin sb JOIN bin b ON b.id = sb.bin_id
     WHERE sb.shift_id IN (SELECT value FROM json_each(?)) ORDER BY b.place_order, b.code`,
    JSON.stringify(shiftIds),
  );

export const dutiesOfShifts = (store: Store, shiftIds: readonly string[]): OfShift<ShiftDutyRow>[] =>
  all(
    store,
    `SELECT d.shift_id AS shiftId, d.bin_id AS binId, d.kind FROM shift_duty d JOIN bin b ON b.id = d.bin_id
     WHERE d.shift_id IN (SELECT value FROM json_each(?)) ORDER BY b.place_order, b.code, d.kind`,
    JSON.stringify(shiftIds),
  );

export const siteZone = (store: Store, siteId: string): string | null =>
  one<{ timeZone: string }>(store, 'SELECT time_zone AS timeZone FROM site WHERE id = ? AND archived = 0', siteId)?.timeZone ?? null;
