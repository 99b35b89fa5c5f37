import type { DutyKind, DutyResult } from '@middenry/domain';
import { all, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface DutyResultRow {
  readonly shiftId: string;
  readonly binId: string;
  readonly kind: DutyKind;
  readonly result: DutyResult;
  readonly note: string;
}
interface DatedResult extends DutyResultRow {
  readonly localDate: string;
  /** 1: the log has such an entry of that day or later. */
  readonly notedSince: number;
}

/** The entry's kind, or what was done for care, that a duty leaves in the log. */
export const ENTRY_OF_DUTY: Readonly<Record<DutyKind, string>> = {
  feed: 'feeding',
  check: 'check',
  loosen: 'loosened',
  water: 'watered',
  bedding: 'bedding',
  inoculate: 'inoculated',
  harvest: 'harvest',
  rest: 'rested',
};

export const resultsOfShift = (store: Store, shiftId: string): DutyResultRow[] =>
  all(
    store,
    'SELECT shift_id AS shiftId, bin_id AS binId, kind, result, note FROM shift_duty_result WHERE shift_id = ? ORDER BY bin_id, kind',
    shiftId,
  );

/** Results since a day, the newest first. */
export const resultsSince = (store: Store, localDate: string): DatedResult[] =>
  all(
    store,
    `SELECT r.shift_id AS shiftId, r.bin_id AS binId, r.kind, r.result, r.note, s.local_date AS localDate,
       EXISTS (SELECT 1 FROM entry e LEFT JOIN care c ON c.entry_id = e.id WHERE e.bin_id = r.bin_id AND e.undone_at IS NULL
         AND e.local_date >= s.local_date AND coalesce(c.action, e.kind) = json_extract(?, '$.' || r.kind)) AS notedSince
     FROM shift_duty_result r JOIN shift s ON s.id = r.shift_id WHERE s.local_date >= ?
     ORDER BY s.local_date DESC, s.local_time DESC, s.id`,
    JSON.stringify(ENTRY_OF_DUTY),
    localDate,
  );

export function sayResult(store: Store, row: DutyResultRow & { readonly personId: string; readonly saidAt: string }): void {
  run(
    store,
    `INSERT INTO shift_duty_result (shift_id, bin_id, kind, result, note, person_id, said_at)
     VALUES (@shiftId, @binId, @kind, @result, @note, @personId, @saidAt)
     ON CONFLICT (shift_id, bin_id, kind) DO UPDATE SET result = @result, note = @note, person_id = @personId, said_at = @saidAt`,
    row,
  );
}

export function takeBackResult(store: Store, row: Pick<DutyResultRow, 'shiftId' | 'binId' | 'kind'>): void {
  run(store, 'DELETE FROM shift_duty_result WHERE shift_id = @shiftId AND bin_id = @binId AND kind = @kind', row);
}

/** Duties on shifts that are still to come, the soonest first. */
export const plannedDuties = (
  store: Store,
  from: string,
): {
  readonly shiftId: string;
  readonly binId: string;
  readonly kind: DutyKind;
  readonly localDate: string;
  readonly localTime: string;
  readonly timeZone: string;
  readonly minutes: number;
}[] =>
  all(
    store,
    `SELECT d.shift_id AS shiftId, d.bin_id AS binId, d.kind, s.local_date AS localDate, s.local_time AS localTime,
       s.time_zone AS timeZone, s.minutes
     FROM shift_duty d JOIN shift s ON s.id = d.shift_id
     WHERE s.cancelled_at IS NULL AND s.local_date >= ?
       AND NOT EXISTS (SELECT 1 FROM shift_duty_result r WHERE r.shift_id = d.shift_id AND r.bin_id = d.bin_id AND r.kind = d.kind)
     ORDER BY s.local_date, s.local_time, s.id`,
    from,
  );

/** Which kinds of entries the log has of these bins on a day: the entry's kind, or what was done for care. */
export const notedOn = (store: Store, binIds: readonly string[], localDate: string): { readonly binId: string; readonly what: string }[] =>
  all(
    store,
    `SELECT DISTINCT e.bin_id AS binId, coalesce(c.action, e.kind) AS what FROM entry e LEFT JOIN care c ON c.entry_id = e.id
     WHERE e.local_date = ? AND e.undone_at IS NULL AND e.bin_id IN (SELECT value FROM json_each(?))`,
    localDate,
    JSON.stringify(binIds),
  );
