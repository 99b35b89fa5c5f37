import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface SignUpRow {
  readonly id: string;
  readonly shiftId: string;
  readonly personId: string;
  /** null when the person has been erased. */
  readonly personName: string | null;
  readonly isAdult: number;
  readonly cleared: number;
  readonly disabled: number;
  readonly takenAt: string;
  readonly givenBackAt: string | null;
  readonly attended: number | null;
  readonly minutes: number | null;
}

const READ = `SELECT u.id, u.shift_id AS shiftId, u.person_id AS personId, p.name AS personName, p.is_adult AS isAdult,
    (p.cleared_at IS NOT NULL) AS cleared, p.disabled, u.taken_at AS takenAt,
    u.given_back_at AS givenBackAt, u.attended, u.minutes FROM sign_up u JOIN person p ON p.id = u.person_id`;

export const signUpById = (store: Store, id: string): SignUpRow | null => one<SignUpRow>(store, `${READ} WHERE u.id = ?`, id);

export const signUpsOfShifts = (store: Store, shiftIds: readonly string[]): SignUpRow[] =>
  all<SignUpRow>(
    store,
    `${READ} WHERE u.shift_id IN (SELECT value FROM json_each(?)) AND u.given_back_at IS NULL ORDER BY u.taken_at, u.id`,
    JSON.stringify(shiftIds),
  );

/**
 * Takes a place in one statement: it is there only while fewer people than places have one, nobody
 * cancelled the shift and this person is not on it yet. Two statements would overbook (criteria PR1).
 * With `keepsOffers` a place that is offered to somebody on the waiting list is kept for them.
 */
export const TAKE_PLACE = `INSERT INTO sign_up (id, shift_id, person_id, taken_at)
  SELECT @id, s.id, @personId, @at FROM shift s
  WHERE s.id = @shiftId AND s.cancelled_at IS NULL
    AND (SELECT count(*) FROM sign_up u WHERE u.shift_id = s.id AND u.given_back_at IS NULL)
      + (SELECT count(*) FROM waiting w WHERE @keepsOffers = 1 AND w.shift_id = s.id AND w.person_id <> @personId AND w.ended_at IS NULL
           AND w.offer_until > @at) < s.places
    AND NOT EXISTS (SELECT 1 FROM sign_up u WHERE u.shift_id = s.id AND u.person_id = @personId AND u.given_back_at IS NULL)`;

export interface PlaceWish {
  readonly id: string;
  readonly shiftId: string;
  readonly personId: string;
  readonly at: string;
  readonly keepsOffers: 0 | 1;
}

export function takePlace(store: Store, wish: PlaceWish): boolean {
  return run(store, TAKE_PLACE, wish) === 1;
}

export const isSignedUp = (store: Store, shiftId: string, personId: string): boolean =>
  one(store, 'SELECT 1 FROM sign_up WHERE shift_id = ? AND person_id = ? AND given_back_at IS NULL', shiftId, personId) !== null;

export function giveBack(store: Store, id: string, at: string): boolean {
  return run(store, 'UPDATE sign_up SET given_back_at = ? WHERE id = ? AND given_back_at IS NULL', at, id) > 0;
}

export function noteAttendance(store: Store, note: { id: string; attended: number | null; minutes: number | null }): void {
  run(store, 'UPDATE sign_up SET attended = ?, minutes = ? WHERE id = ?', note.attended, note.minutes, note.id);
}

/** Somebody who might take a place; pupils are those whose roles or age say so. */
export const signUpPerson = (store: Store, personId: string): { readonly disabled: number; readonly isPupil: number } | null =>
  one(
    store,
    `SELECT p.disabled, (p.is_adult = 0 OR EXISTS (SELECT 1 FROM membership m WHERE m.person_id = p.id AND m.role = 'pupil')) AS isPupil
     FROM person p WHERE p.id = ? AND p.erased_at IS NULL`,
    personId,
  );

/** The places that somebody holds on these shifts. */
export const placesHeldOn = (
  store: Store,
  personId: string,
  shiftIds: readonly string[],
): { readonly id: string; readonly shiftId: string }[] =>
  all(
    store,
    `SELECT u.id, u.shift_id AS shiftId FROM sign_up u JOIN shift s ON s.id = u.shift_id
     WHERE u.person_id = ? AND u.given_back_at IS NULL AND s.cancelled_at IS NULL AND s.id IN (SELECT value FROM json_each(?)) ORDER BY s.local_date`,
    personId,
    JSON.stringify(shiftIds),
  );

/** Places that somebody holds on shifts of this date or later. */
export const placesHeldFrom = (store: Store, personId: string, date: string): { readonly id: string; readonly shiftId: string }[] =>
  all(
    store,
    `SELECT u.id, u.shift_id AS shiftId FROM sign_up u JOIN shift s ON s.id = u.shift_id
     WHERE u.person_id = ? AND u.given_back_at IS NULL AND s.cancelled_at IS NULL AND s.local_date >= ? ORDER BY s.local_date, u.id`,
    personId,
    date,
  );
