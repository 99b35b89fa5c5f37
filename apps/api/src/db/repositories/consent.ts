import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export type ConsentPurpose = 'photo' | 'report';
export interface ConsentRow {
  readonly id: string;
  readonly personId: string;
  /** null: erased. */
  readonly personName: string | null;
  readonly givenBy: 'self' | 'guardian' | 'school';
  readonly purpose: ConsentPurpose;
  readonly wording: number;
  readonly givenAt: string;
  readonly enteredBy: string;
  readonly enteredByName: string | null;
  readonly withdrawnAt: string | null;
}

const READ = `SELECT c.id, c.person_id AS personId, p.name AS personName, c.given_by AS givenBy, c.purpose, c.wording, c.given_at AS givenAt,
    c.entered_by AS enteredBy, e.name AS enteredByName, c.withdrawn_at AS withdrawnAt
  FROM consent c JOIN person p ON p.id = c.person_id JOIN person e ON e.id = c.entered_by`;
const MOST = 2000;

/** Those that hold first, then by name; of whoever was erased at the end. */
export const listConsentRows = (store: Store): ConsentRow[] =>
  all<ConsentRow>(
    store,
    `${READ} ORDER BY c.withdrawn_at IS NOT NULL, p.name IS NULL, p.name COLLATE NOCASE, c.purpose, c.given_at DESC LIMIT ${MOST}`,
  );

export const consentsOf = (store: Store, personId: string): ConsentRow[] =>
  all<ConsentRow>(store, `${READ} WHERE c.person_id = ? ORDER BY c.withdrawn_at IS NOT NULL, c.purpose, c.given_at DESC`, personId);

export const consentById = (store: Store, id: string): ConsentRow | null => one<ConsentRow>(store, `${READ} WHERE c.id = ?`, id);

export const hasConsent = (store: Store, personId: string, purpose: ConsentPurpose): boolean =>
  one(store, 'SELECT 1 FROM consent WHERE person_id = ? AND purpose = ? AND withdrawn_at IS NULL', personId, purpose) !== null;

export const insertConsent = (store: Store, row: Omit<ConsentRow, 'personName' | 'enteredByName' | 'withdrawnAt'>): number =>
  run(
    store,
    `INSERT INTO consent (id, person_id, given_by, purpose, wording, given_at, entered_by)
     VALUES (@id, @personId, @givenBy, @purpose, @wording, @givenAt, @enteredBy)`,
    row,
  );

export const withdrawConsentRow = (store: Store, id: string, at: string, by: string | null): number =>
  run(store, 'UPDATE consent SET withdrawn_at = ?, withdrawn_by = ? WHERE id = ? AND withdrawn_at IS NULL', at, by, id);
