import { all } from '../rows.ts';
import type { Store } from '../store.ts';

/** A place on a shift that is not cancelled, of somebody who may be told. */
export interface PlaceAhead {
  readonly shiftId: string;
  readonly personId: string;
  readonly localDate: string;
  readonly localTime: string;
  readonly timeZone: string;
  readonly takenAt: string;
}

export const placesAhead = (store: Store, range: { from: string; to: string }): PlaceAhead[] =>
  all<PlaceAhead>(
    store,
    `SELECT s.id AS shiftId, u.person_id AS personId, s.local_date AS localDate, s.local_time AS localTime, s.time_zone AS timeZone,
       u.taken_at AS takenAt
     FROM shift s JOIN sign_up u ON u.shift_id = s.id AND u.given_back_at IS NULL
     JOIN person p ON p.id = u.person_id AND p.disabled = 0 AND p.erased_at IS NULL
     WHERE s.local_date BETWEEN @from AND @to AND s.cancelled_at IS NULL ORDER BY s.local_date, s.id, u.id`,
    range,
  );

export const remindersMade = (
  store: Store,
  shiftIds: readonly string[],
): { readonly personId: string; readonly shiftId: string; readonly kind: string; readonly occasion: string }[] =>
  all(
    store,
    `SELECT person_id AS personId, shift_id AS shiftId, kind, occasion FROM message
     WHERE kind IN ('reminder-day', 'reminder-hours') AND shift_id IN (SELECT value FROM json_each(?))`,
    JSON.stringify(shiftIds),
  );
