import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface SwapRow {
  readonly id: string;
  readonly signUpId: string;
  readonly shiftId: string;
  readonly fromPersonId: string;
  /** null when the person has been erased. */
  readonly fromName: string | null;
  readonly toPersonId: string | null;
  readonly toName: string | null;
  readonly inReturn: readonly string[];
  readonly madeAt: string;
  readonly endedAt: string | null;
  readonly acceptedBy: string | null;
}

type RawSwap = Omit<SwapRow, 'inReturn'> & { readonly inReturn: string };

const READ = `SELECT s.id, s.sign_up_id AS signUpId, s.shift_id AS shiftId, s.from_person_id AS fromPersonId, a.name AS fromName,
    s.to_person_id AS toPersonId, b.name AS toName, s.in_return AS inReturn, s.made_at AS madeAt, s.ended_at AS endedAt,
    s.accepted_by AS acceptedBy
  FROM swap s JOIN person a ON a.id = s.from_person_id LEFT JOIN person b ON b.id = s.to_person_id`;
const toSwap = (raw: RawSwap): SwapRow => ({ ...raw, inReturn: JSON.parse(raw.inReturn) as string[] });

export function swapById(store: Store, id: string): SwapRow | null {
  const raw = one<RawSwap>(store, `${READ} WHERE s.id = ?`, id);
  return raw === null ? null : toSwap(raw);
}

/** Places of these shifts that are still on offer, first offered first. */
export const openSwapsOf = (store: Store, shiftIds: readonly string[]): SwapRow[] =>
  all<RawSwap>(
    store,
    `${READ} WHERE s.ended_at IS NULL AND s.shift_id IN (SELECT value FROM json_each(?)) ORDER BY s.made_at, s.id`,
    JSON.stringify(shiftIds),
  ).map(toSwap);

export function insertSwap(store: Store, row: Omit<SwapRow, 'fromName' | 'toName' | 'endedAt' | 'acceptedBy'>): void {
  run(
    store,
    `INSERT INTO swap (id, sign_up_id, shift_id, from_person_id, to_person_id, in_return, made_at)
     VALUES (@id, @signUpId, @shiftId, @fromPersonId, @toPersonId, @inReturn, @madeAt)`,
    { ...row, inReturn: JSON.stringify(row.inReturn) },
  );
}

/** Of many who accept at once exactly one changes this row. */
export const ACCEPT_SWAP = `UPDATE swap SET ended_at = @at, ended_how = 'accepted', accepted_by = @personId
  WHERE id = @id AND ended_at IS NULL AND from_person_id <> @personId AND (to_person_id IS NULL OR to_person_id = @personId)`;

export const acceptSwap = (store: Store, accept: { id: string; personId: string; at: string }): boolean =>
  run(store, ACCEPT_SWAP, accept) === 1;

export function endSwap(store: Store, id: string, end: { at: string; how: 'withdrawn' | 'declined' }): boolean {
  return run(store, 'UPDATE swap SET ended_at = @at, ended_how = @how WHERE id = @id AND ended_at IS NULL', { ...end, id }) > 0;
}

/** Ends the open offers that this person made or was made; says which they were. */
export function endSwapsOf(store: Store, personId: string, at: string): { readonly id: string; readonly shiftId: string }[] {
  const open = all<{ id: string; shiftId: string }>(
    store,
    'SELECT id, shift_id AS shiftId FROM swap WHERE ended_at IS NULL AND (from_person_id = @personId OR to_person_id = @personId)',
    { personId },
  );
  for (const { id } of open) endSwap(store, id, { at, how: 'withdrawn' });
  return open;
}
