import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';
import { deleteDetail, detailsOf, insertDetail } from './entry-detail.ts';
import type { EntryCore, EntryDetail, EntryKind, EntryRead, EntryRow } from './entry-types.ts';

const READ = `SELECT e.id, e.kind, e.bin_id AS binId, e.person_id AS personId, e.shift_id AS shiftId, e.happened_at AS happenedAt,
    e.local_date AS localDate, e.device_at AS deviceAt, e.received_at AS receivedAt, e.skew_s AS skewS, e.note, e.revision,
    e.undone_at AS undoneAt, b.code AS binCode, b.site_id AS siteId, p.name AS personName
  FROM entry e JOIN bin b ON b.id = e.bin_id LEFT JOIN person p ON p.id = e.person_id`;
type Head = EntryRead & { readonly kind: EntryKind };

/** Call inside a write transaction: the core row and its details belong together. */
export function insertEntry(store: Store, core: EntryCore, detail: EntryDetail): void {
  run(
    store,
    `INSERT INTO entry (id, kind, bin_id, person_id, shift_id, happened_at, local_date, device_at, received_at, skew_s, note)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    core.id,
    detail.kind,
    core.binId,
    core.personId,
    core.shiftId,
    core.happenedAt,
    core.localDate,
    core.deviceAt,
    core.receivedAt,
    core.skewS,
    core.note,
  );
  insertDetail(store, core.id, detail);
}

export function entryById(store: Store, id: string): EntryRow | null {
  const head = one<Head>(store, `${READ} WHERE e.id = ?`, id);
  return head ? (withDetails(store, [head])[0] ?? null) : null;
}

/**
 * A page of a bin's log, newest first. Entries of one moment are never split over two pages, so a
 * page may hold a few more than `limit`.
 */
export function entryPage(store: Store, page: { binId: string; before: string; limit: number }): { rows: EntryRow[]; more: boolean } {
  const { binId, before, limit } = page;
  const heads = all<Head>(
    store,
    `${READ} WHERE e.bin_id = ? AND e.happened_at < ? AND e.happened_at >= ifnull(
       (SELECT happened_at FROM entry WHERE bin_id = ? AND happened_at < ? ORDER BY happened_at DESC LIMIT 1 OFFSET ?), '')
     ORDER BY e.happened_at DESC, e.id DESC`,
    binId,
    before,
    binId,
    before,
    limit - 1,
  );
  const last = heads.at(-1);
  const more =
    last !== undefined && one(store, 'SELECT 1 FROM entry WHERE bin_id = ? AND happened_at < ?', binId, last.happenedAt) !== null;
  return { rows: withDetails(store, heads), more };
}

/** All that stands in a bin's log, oldest first, without what was undone. */
export function entryHistory(store: Store, binId: string): EntryRow[] {
  return withDetails(store, all<Head>(store, `${READ} WHERE e.bin_id = ? AND e.undone_at IS NULL ORDER BY e.happened_at, e.id`, binId));
}

/** Keeps what the entry said, then marks it. Call inside a write transaction. Returns false when somebody was faster. */
export function undoEntry(store: Store, undo: { row: EntryRow; at: string; personId: string }): boolean {
  const { row, at, personId } = undo;
  const changed = run(
    store,
    'UPDATE entry SET undone_at = ?, undone_by = ?, revision = revision + 1 WHERE id = ? AND undone_at IS NULL AND revision = ?',
    at,
    personId,
    row.id,
    row.revision,
  );
  if (changed === 0) return false;
  keepRevision(store, undo);
  return true;
}

/** Append-only history: what an entry said before. */
export function keepRevision(store: Store, kept: { row: EntryRow; at: string; personId: string }): void {
  run(
    store,
    'INSERT INTO entry_revision (entry_id, revision, body, replaced_at, replaced_by) VALUES (?, ?, ?, ?, ?)',
    kept.row.id,
    kept.row.revision,
    JSON.stringify(bodyOf(kept.row)),
    kept.at,
    kept.personId,
  );
}

/** Names are not kept with it: whoever is erased must not live on in here. */
function bodyOf({ personName: _personName, binCode: _binCode, siteId: _siteId, ...body }: EntryRow): object {
  return body;
}

/** Puts the corrected entry in the place of the one that is there; call inside a write transaction, after keepRevision. */
export function replaceEntry(store: Store, row: EntryRow, core: Pick<EntryCore, ReplacedField>, detail: EntryDetail): void {
  run(
    store,
    `UPDATE entry SET bin_id = @binId, shift_id = @shiftId, happened_at = @happenedAt, local_date = @localDate, note = @note,
       revision = revision + 1 WHERE id = @id`,
    { ...core, id: row.id },
  );
  deleteDetail(store, row.id, row.kind);
  insertDetail(store, row.id, detail);
}

type ReplacedField = 'binId' | 'shiftId' | 'happenedAt' | 'localDate' | 'note';

export interface RevisionRow {
  readonly revision: number;
  readonly body: string;
  readonly replacedAt: string;
  readonly replacedBy: string | null;
  readonly replacedByName: string | null;
}

export const revisionsOf = (store: Store, entryId: string): RevisionRow[] =>
  all<RevisionRow>(
    store,
    `SELECT r.revision, r.body, r.replaced_at AS replacedAt, r.replaced_by AS replacedBy, p.name AS replacedByName
     FROM entry_revision r LEFT JOIN person p ON p.id = r.replaced_by WHERE r.entry_id = ? ORDER BY r.revision DESC`,
    entryId,
  );

function withDetails(store: Store, heads: readonly Head[]): EntryRow[] {
  if (heads.length === 0) return [];
  const details = detailsOf(
    store,
    heads.map((head) => head.id),
  );
  return heads.flatMap((head) => {
    const detail = head.kind === 'note' ? ({ kind: 'note' } as const) : details.get(head.id);
    return detail ? [{ ...head, ...detail } as EntryRow] : [];
  });
}
