import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface WaitingRow {
  readonly id: string;
  readonly shiftId: string;
  readonly personId: string;
  /** null when the person has been erased. */
  readonly personName: string | null;
  readonly joinedAt: string;
  readonly offeredAt: string | null;
  readonly offerUntil: string | null;
  readonly endedAt: string | null;
}

const READ = `SELECT w.id, w.shift_id AS shiftId, w.person_id AS personId, p.name AS personName, w.joined_at AS joinedAt,
    w.offered_at AS offeredAt, w.offer_until AS offerUntil, w.ended_at AS endedAt FROM waiting w JOIN person p ON p.id = w.person_id`;

export const waitingById = (store: Store, id: string): WaitingRow | null => one<WaitingRow>(store, `${READ} WHERE w.id = ?`, id);

/** Who still waits for these shifts, first come first. */
export const waitingOfShifts = (store: Store, shiftIds: readonly string[]): WaitingRow[] =>
  all<WaitingRow>(
    store,
    `${READ} WHERE w.ended_at IS NULL AND w.shift_id IN (SELECT value FROM json_each(?)) ORDER BY w.seq`,
    JSON.stringify(shiftIds),
  );

export const shiftsWaitedFor = (store: Store): string[] =>
  all<{ shiftId: string }>(store, 'SELECT DISTINCT shift_id AS shiftId FROM waiting WHERE ended_at IS NULL').map((row) => row.shiftId);

export function insertWaiting(store: Store, row: { id: string; shiftId: string; personId: string; joinedAt: string }): void {
  run(store, 'INSERT INTO waiting (id, shift_id, person_id, joined_at) VALUES (@id, @shiftId, @personId, @joinedAt)', row);
}

export function offerPlace(store: Store, id: string, offer: { at: string; until: string }): void {
  run(store, 'UPDATE waiting SET offered_at = @at, offer_until = @until WHERE id = @id AND ended_at IS NULL', { ...offer, id });
}

export function endWaiting(store: Store, id: string, end: { at: string; how: 'took' | 'left' | 'lapsed' | 'shift' }): void {
  run(store, 'UPDATE waiting SET ended_at = @at, ended_how = @how WHERE id = @id AND ended_at IS NULL', { ...end, id });
}

export const waitingOfPerson = (store: Store, personId: string): { readonly id: string; readonly shiftId: string }[] =>
  all(store, 'SELECT id, shift_id AS shiftId FROM waiting WHERE ended_at IS NULL AND person_id = ?', personId);
