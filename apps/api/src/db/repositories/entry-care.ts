/** Care and worms: the detail tables of the quieter entries. */
import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';
import type { CareDetail, EntryDetail, WormsDetail } from './entry-types.ts';

export function insertCare(store: Store, entryId: string, care: CareDetail): void {
  run(
    store,
    `INSERT INTO care (entry_id, action, zone, grams, material_id, exposure, share)
     VALUES (@entryId, @action, @zone, @grams, @materialId, @exposure, @share)`,
    { ...care, entryId },
  );
}

export function insertWorms(store: Store, entryId: string, worms: WormsDetail): void {
  run(
    store,
    `INSERT INTO worm_move (entry_id, direction, grams, how, share, other_bin_id)
     VALUES (@entryId, @direction, @grams, @how, @share, @otherBinId)`,
    { ...worms, entryId },
  );
}

export function readCares(store: Store, ids: string, found: Map<string, EntryDetail>): void {
  for (const { entryId, ...care } of all<Omit<CareDetail, 'kind'> & { entryId: string }>(
    store,
    `SELECT entry_id AS entryId, action, zone, grams, material_id AS materialId, exposure, share
     FROM care WHERE entry_id IN (SELECT value FROM json_each(?))`,
    ids,
  )) {
    found.set(entryId, { kind: 'care', ...care });
  }
}

export function readWorms(store: Store, ids: string, found: Map<string, EntryDetail>): void {
  for (const { entryId, ...worms } of all<Omit<WormsDetail, 'kind'> & { entryId: string }>(
    store,
    `SELECT entry_id AS entryId, direction, grams, how, share, other_bin_id AS otherBinId
     FROM worm_move WHERE entry_id IN (SELECT value FROM json_each(?))`,
    ids,
  )) {
    found.set(entryId, { kind: 'worms', ...worms });
  }
}

/** The last thing said of a bin's state: rested, woken or retired; null when nothing ever was. */
export function lastStateAction(store: Store, binId: string): 'rested' | 'woken' | 'retired' | null {
  const row = one<{ action: 'rested' | 'woken' | 'retired' }>(
    store,
    `SELECT c.action FROM care c JOIN entry e ON e.id = c.entry_id
     WHERE e.bin_id = ? AND e.undone_at IS NULL AND c.action IN ('rested', 'woken', 'retired')
     ORDER BY e.happened_at DESC, e.id DESC LIMIT 1`,
    binId,
  );
  return row?.action ?? null;
}
