/** Castings in a site's store: what its harvests brought, and what was given out, brought in or written off. */
import type { HowMeasured } from '@middenry/domain';
import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';
import type { Destination, TypedUnit } from './entry-types.ts';

export interface CastingsMoveRow {
  readonly id: string;
  readonly siteId: string;
  readonly kind: 'given-out' | 'brought-in' | 'written-off';
  readonly grams: number;
  readonly how: HowMeasured;
  readonly typedValue: number | null;
  readonly typedUnit: TypedUnit | null;
  readonly destination: Exclude<Destination, 'stock' | 'curing'> | null;
  readonly destinationNote: string;
  readonly receiver: string | null;
  readonly note: string;
  readonly personId: string | null;
  readonly personName: string | null;
  readonly localDate: string;
  readonly movedAt: string;
  readonly undoneAt: string | null;
}

const READ = `SELECT m.id, m.site_id AS siteId, m.kind, m.grams, m.how, m.typed_value AS typedValue, m.typed_unit AS typedUnit,
    m.destination, m.destination_note AS destinationNote, m.receiver, m.note, m.person_id AS personId, p.name AS personName,
    m.local_date AS localDate, m.moved_at AS movedAt, m.undone_at AS undoneAt
  FROM castings_move m LEFT JOIN person p ON p.id = m.person_id`;

/** Newest first. */
export const castingsMoves = (store: Store, siteId: string | null): CastingsMoveRow[] =>
  all<CastingsMoveRow>(
    store,
    `${READ} WHERE @siteId IS NULL OR m.site_id = @siteId ORDER BY m.local_date DESC, m.moved_at DESC, m.id DESC LIMIT 500`,
    { siteId },
  );

export const castingsMoveById = (store: Store, id: string): CastingsMoveRow | null =>
  one<CastingsMoveRow>(store, `${READ} WHERE m.id = ?`, id);

export function insertCastingsMove(store: Store, row: Omit<CastingsMoveRow, 'personName' | 'undoneAt'>): void {
  run(
    store,
    `INSERT INTO castings_move (id, site_id, kind, grams, how, typed_value, typed_unit, destination, destination_note, receiver, note,
        person_id, local_date, moved_at)
     VALUES (@id, @siteId, @kind, @grams, @how, @typedValue, @typedUnit, @destination, @destinationNote, @receiver, @note,
        @personId, @localDate, @movedAt)`,
    row,
  );
}

export function undoMove(store: Store, undo: { readonly id: string; readonly at: string; readonly personId: string }): void {
  run(store, 'UPDATE castings_move SET undone_at = @at, undone_by = @personId WHERE id = @id AND undone_at IS NULL', undo);
}

export function eraseMoveReceiver(store: Store, id: string): void {
  run(store, 'UPDATE castings_move SET receiver = NULL WHERE id = ?', id);
}

/** Castings of one harvest that lie or lay in a store. */
export interface StoredHarvestRow {
  readonly entryId: string;
  readonly siteId: string;
  readonly binId: string;
  readonly binCode: string;
  readonly grams: number;
  readonly localDate: string;
  /** Null: ready at once. */
  readonly readyOn: string | null;
}

export const storedHarvests = (store: Store, siteId: string | null): StoredHarvestRow[] =>
  all<StoredHarvestRow>(
    store,
    `SELECT e.id AS entryId, h.site_id AS siteId, e.bin_id AS binId, b.code AS binCode, h.grams, e.local_date AS localDate,
        h.ready_on AS readyOn
     FROM harvest h JOIN entry e ON e.id = h.entry_id JOIN bin b ON b.id = e.bin_id
     WHERE h.destination IN ('stock', 'curing') AND e.undone_at IS NULL AND (@siteId IS NULL OR h.site_id = @siteId)
     ORDER BY ifnull(h.ready_on, e.local_date), e.id`,
    { siteId },
  );

/** What went in and out of a store by itself, in grams; out is less than nothing. */
export const movedCastings = (store: Store, siteId: string | null): { siteId: string; on: string; grams: number }[] =>
  all(
    store,
    `SELECT site_id AS siteId, local_date AS "on", CASE kind WHEN 'brought-in' THEN grams ELSE -grams END AS grams
     FROM castings_move WHERE undone_at IS NULL AND (@siteId IS NULL OR site_id = @siteId)`,
    { siteId },
  );

/** In whose store a harvest is; null when the entry is none. */
export const harvestSite = (store: Store, entryId: string): string | null =>
  one<{ siteId: string }>(store, 'SELECT site_id AS siteId FROM harvest WHERE entry_id = ?', entryId)?.siteId ?? null;

export function putHarvestSite(store: Store, entryId: string, siteId: string): void {
  run(store, 'UPDATE harvest SET site_id = ? WHERE entry_id = ?', siteId, entryId);
}
