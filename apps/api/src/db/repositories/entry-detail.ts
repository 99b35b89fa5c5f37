/** The detail tables of entries: one pair of functions per kind, read for many entries at once. */

import { all, run } from '../rows.ts';
import type { Store } from '../store.ts';
import { insertCare, insertWorms, readCares, readWorms } from './entry-care.ts';
import { insertHarvest, readHarvests } from './entry-harvest.ts';
import type { CheckDetail, EntryDetail, FeedingDetail, FeedingItemRow } from './entry-types.ts';

type WithId<T> = T & { readonly entryId: string };

export function insertDetail(store: Store, entryId: string, detail: EntryDetail): void {
  switch (detail.kind) {
    case 'feeding':
      insertFeeding(store, entryId, detail);
      break;
    case 'check':
      insertCheck(store, entryId, detail);
      break;
    case 'harvest':
      insertHarvest(store, entryId, detail);
      break;
    case 'care':
      insertCare(store, entryId, detail);
      break;
    case 'worms':
      insertWorms(store, entryId, detail);
      break;
    case 'note':
      // A note is all in the entry itself.
      break;
    default:
      detail satisfies never;
  }
}

function insertFeeding(store: Store, entryId: string, detail: FeedingDetail): void {
  run(
    store,
    'INSERT INTO feeding (entry_id, zone, bedding_g, bedding_material_id, water_g) VALUES (?, ?, ?, ?, ?)',
    entryId,
    detail.zone,
    detail.beddingG,
    detail.beddingMaterialId,
    detail.waterG,
  );
  detail.items.forEach((item, seq) => {
    run(
      store,
      `INSERT INTO feeding_item (entry_id, seq, material_id, grams, how, preparation, container_id, container_count, typed_value, typed_unit, tare_g)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
      entryId,
      seq,
      item.materialId,
      item.grams,
      item.how,
      item.preparation,
      item.containerId,
      item.containerCount,
      item.typedValue,
      item.typedUnit,
      item.tareG,
    );
  });
}

function insertCheck(store: Store, entryId: string, detail: CheckDetail): void {
  run(
    store,
    'INSERT INTO bin_check (entry_id, squeeze, smell, bed_temp_c, worms, ph) VALUES (?, ?, ?, ?, ?, ?)',
    entryId,
    detail.squeeze,
    detail.smell,
    detail.bedTempC,
    detail.worms,
    detail.ph,
  );
  for (const { zone, left } of detail.leftover) {
    run(store, 'INSERT INTO check_leftover (entry_id, zone, left_over) VALUES (?, ?, ?)', entryId, zone, left);
  }
  for (const visitor of detail.visitors) {
    run(store, 'INSERT INTO check_visitor (entry_id, visitor) VALUES (?, ?)', entryId, visitor);
  }
}

/** Takes the details away so that corrected ones can take their place; call inside a write transaction. */
export function deleteDetail(store: Store, entryId: string, kind: EntryDetail['kind']): void {
  const sql = DELETE_DETAIL[kind];
  if (sql !== null) run(store, sql, entryId);
}

/** Items, leftovers, visitors and buckets go with the row they belong to. */
const DELETE_DETAIL: Readonly<Record<EntryDetail['kind'], string | null>> = {
  feeding: 'DELETE FROM feeding WHERE entry_id = ?',
  check: 'DELETE FROM bin_check WHERE entry_id = ?',
  harvest: 'DELETE FROM harvest WHERE entry_id = ?',
  care: 'DELETE FROM care WHERE entry_id = ?',
  worms: 'DELETE FROM worm_move WHERE entry_id = ?',
  note: null,
};

/** The details of many entries, by entry id; an id without a detail row is left out. */
export function detailsOf(store: Store, entryIds: readonly string[]): Map<string, EntryDetail> {
  const found = new Map<string, EntryDetail>();
  const ids = JSON.stringify(entryIds);
  readFeedings(store, ids, found);
  readChecks(store, ids, found);
  readHarvests(store, ids, found);
  readCares(store, ids, found);
  readWorms(store, ids, found);
  return found;
}

function readFeedings(store: Store, ids: string, found: Map<string, EntryDetail>): void {
  const items = groupById(
    all<WithId<FeedingItemRow>>(
      store,
      `SELECT entry_id AS entryId, material_id AS materialId, grams, how, preparation, container_id AS containerId,
              container_count AS containerCount, typed_value AS typedValue, typed_unit AS typedUnit, tare_g AS tareG
       FROM feeding_item WHERE entry_id IN (SELECT value FROM json_each(?)) ORDER BY entry_id, seq`,
      ids,
    ),
  );
  for (const { entryId, ...feeding } of all<WithId<Omit<FeedingDetail, 'kind' | 'items'>>>(
    store,
    `SELECT entry_id AS entryId, zone, bedding_g AS beddingG, bedding_material_id AS beddingMaterialId, water_g AS waterG
     FROM feeding WHERE entry_id IN (SELECT value FROM json_each(?))`,
    ids,
  )) {
    found.set(entryId, { kind: 'feeding', ...feeding, items: items.get(entryId) ?? [] });
  }
}

function readChecks(store: Store, ids: string, found: Map<string, EntryDetail>): void {
  const leftovers = groupById(
    all<WithId<CheckDetail['leftover'][number]>>(
      store,
      `SELECT entry_id AS entryId, zone, left_over AS left FROM check_leftover
       WHERE entry_id IN (SELECT value FROM json_each(?)) ORDER BY entry_id, zone`,
      ids,
    ),
  );
  const visitors = groupById(
    all<WithId<{ readonly visitor: CheckDetail['visitors'][number] }>>(
      store,
      'SELECT entry_id AS entryId, visitor FROM check_visitor WHERE entry_id IN (SELECT value FROM json_each(?)) ORDER BY entry_id, visitor',
      ids,
    ),
  );
  for (const { entryId, ...check } of all<WithId<Omit<CheckDetail, 'kind' | 'leftover' | 'visitors'>>>(
    store,
    `SELECT entry_id AS entryId, squeeze, smell, bed_temp_c AS bedTempC, worms, ph
     FROM bin_check WHERE entry_id IN (SELECT value FROM json_each(?))`,
    ids,
  )) {
    const seen = (visitors.get(entryId) ?? []).map((row) => row.visitor);
    found.set(entryId, { kind: 'check', ...check, leftover: leftovers.get(entryId) ?? [], visitors: seen });
  }
}

function groupById<T>(rows: readonly WithId<T>[]): Map<string, Omit<WithId<T>, 'entryId'>[]> {
  const groups = new Map<string, Omit<WithId<T>, 'entryId'>[]>();
  for (const { entryId, ...rest } of rows) {
    const group = groups.get(entryId);
    if (group) group.push(rest);
    else groups.set(entryId, [rest]);
  }
  return groups;
}
