import type { SignalId } from '@middenry/domain';
import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface FlagNoteRow {
  readonly id: string;
  readonly binId: string;
  readonly siteId: string;
  readonly signal: SignalId;
  readonly kind: 'seen' | 'aside';
  readonly band: 'unknown' | 'watch' | 'act';
  readonly reason: string;
  readonly untilOn: string | null;
  readonly madeOn: string;
  readonly madeAt: string;
  readonly personId: string;
  /** null: erased. */
  readonly personName: string | null;
}

const READ = `SELECT n.id, n.bin_id AS binId, b.site_id AS siteId, n.signal, n.kind, n.band, n.reason, n.until_on AS untilOn,
    n.made_on AS madeOn, n.made_at AS madeAt, n.person_id AS personId, w.name AS personName
  FROM flag_note n JOIN bin b ON b.id = n.bin_id JOIN person w ON w.id = n.person_id`;

/** Those that nobody ended, newest first; whether their day is over is for the reader to say. */
export const openFlagNotes = (store: Store): FlagNoteRow[] =>
  all<FlagNoteRow>(store, `${READ} WHERE n.ended_at IS NULL ORDER BY n.made_at DESC, n.id DESC`);

export const flagNoteById = (store: Store, id: string): FlagNoteRow | null => one<FlagNoteRow>(store, `${READ} WHERE n.id = ?`, id);

export function insertFlagNote(store: Store, row: Omit<FlagNoteRow, 'siteId' | 'personName'>): void {
  run(
    store,
    `INSERT INTO flag_note (id, bin_id, signal, kind, band, reason, until_on, made_on, made_at, person_id)
     VALUES (@id, @binId, @signal, @kind, @band, @reason, @untilOn, @madeOn, @madeAt, @personId)`,
    row,
  );
}

/** A newer word on the same flag takes the place of the older of its kind. */
export function endFlagNotesLike(store: Store, { binId, signal, kind }: Pick<FlagNoteRow, 'binId' | 'signal' | 'kind'>, at: string): void {
  run(
    store,
    'UPDATE flag_note SET ended_at = ? WHERE bin_id = ? AND signal = ? AND kind = ? AND ended_at IS NULL',
    at,
    binId,
    signal,
    kind,
  );
}

export const endFlagNote = (store: Store, id: string, at: string): number =>
  run(store, 'UPDATE flag_note SET ended_at = ? WHERE id = ? AND ended_at IS NULL', at, id);
