/** Noting, reading and undoing what people did and saw at a bin. */
import type { CheckNew, Entry, FeedingNew, HarvestNew } from '@middenry/contract';
import { gramsFromKg } from '@middenry/domain';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { entryById, entryPage, insertEntry, undoEntry } from '../db/repositories/entry.ts';
import { binForEntry } from '../db/repositories/entry-place.ts';
import type { CheckDetail, EntryDetail, EntryRow, FeedingDetail, HarvestDetail } from '../db/repositories/entry-types.ts';
import { ownMaterials } from '../db/repositories/material.ts';
import { write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { checkContainers, checkMaterials, checkShift, checkZones, placeInTime } from './entry-rules.ts';
import { entryShape, type Reader } from './entry-shape.ts';
import { byId } from './materials.ts';
import { once } from './once.ts';

type FeedingBody = z.output<typeof FeedingNew>;
type CheckBody = z.output<typeof CheckNew>;
type HarvestBody = z.output<typeof HarvestNew>;
type AnyBody = FeedingBody | CheckBody | HarvestBody;

/** Pupils may take back a slip of the finger for this long; everybody else at any time (criteria E.4). */
const PUPIL_UNDO_MS = 600_000;

export const logFeeding = (call: Signed, body: FeedingBody) => log(call, 'logFeeding', body, feedingDetail(body));
export const logCheck = (call: Signed, body: CheckBody) => log(call, 'logCheck', body, checkDetail(body));
export const logHarvest = (call: Signed, body: HarvestBody) => log(call, 'logHarvest', body, harvestDetail(body));

function log<D extends EntryDetail>(
  call: Signed,
  route: 'logFeeding' | 'logCheck' | 'logHarvest',
  body: AnyBody,
  detail: D,
): Extract<Entry, { kind: D['kind'] }> {
  const find = () => readOrRefuse(call, body.id);
  const make = () => {
    insertChecked(call, body, detail);
    return find();
  };
  return entryShape(once(call, route, body, { make, find }), readerOf(call)) as Extract<Entry, { kind: D['kind'] }>;
}

function insertChecked(call: Signed, body: AnyBody, detail: EntryDetail): void {
  const { store, now, who } = call;
  const bin = binForEntry(store, body.binId);
  if (bin === null) throw refuse('not-found');
  const when = placeInTime(bin, body, now);
  checkShift(store, bin, body.shiftId);
  checkZones(bin, detail);
  checkMaterials(byId(ownMaterials(store)), detail);
  checkContainers(store, bin, detail);
  const { id, binId, shiftId, note } = body;
  insertEntry(store, { id, binId, personId: who.personId, shiftId, note, receivedAt: now.toISOString(), ...when }, detail);
}

export function readEntry(call: Context, id: string): Entry {
  return entryShape(readOrRefuse(call, id), readerOf(call));
}

export function listEntries(
  call: Context,
  binId: string,
  page: { before?: string | undefined; limit: number },
): { items: Entry[]; more: boolean } {
  if (binForEntry(call.store, binId) === null) throw refuse('not-found');
  // Nothing is noted further ahead than a phone's clock may be fast, so this is after everything.
  const before = page.before === undefined ? '9999' : new Date(page.before).toISOString();
  const { rows, more } = entryPage(call.store, { binId, before, limit: page.limit });
  const reader = readerOf(call);
  return { items: rows.map((row) => entryShape(row, reader)), more };
}

/** Takes an entry out of the log; what it said is kept. `mine` is asked before anything else is told. */
export function undo(call: Signed, id: string, own: (mine: boolean) => void): Entry {
  return write(call.store, () => {
    const row = readOrRefuse(call, id);
    const mine = row.personId === call.who.personId;
    own(mine && !(call.who.role === 'pupil' && call.now.getTime() - Date.parse(row.receivedAt) > PUPIL_UNDO_MS));
    if (row.undoneAt !== null) throw refuse('already-undone');
    undoEntry(call.store, { row, at: call.now.toISOString(), personId: call.who.personId });
    if (!mine) call.audit('entry.undone-for-another', id, { kind: row.kind, binId: row.binId });
    return readEntry(call, id);
  });
}

function readOrRefuse(call: Context, id: string): EntryRow {
  const row = entryById(call.store, id);
  if (row === null) throw refuse('not-found');
  return row;
}

const readerOf = (call: Context): Reader => ({ who: call.who, own: byId(ownMaterials(call.store)) });

const typedColumns = (typed: { value: number; unit: HarvestDetail['typedUnit'] } | null) => ({
  typedValue: typed?.value ?? null,
  typedUnit: typed?.unit ?? null,
});

const feedingDetail = (body: FeedingBody): FeedingDetail => ({
  kind: 'feeding',
  zone: body.zone,
  beddingG: gramsFromKg(body.beddingKg),
  beddingMaterialId: body.beddingMaterialId,
  waterG: gramsFromKg(body.waterKg),
  items: body.items.map(({ massKg, typed, ...item }) => ({ ...item, grams: gramsFromKg(massKg), ...typedColumns(typed) })),
});

const checkDetail = ({ leftover, squeeze, smell, bedTempC, worms, ph, visitors }: CheckBody): CheckDetail => ({
  kind: 'check',
  leftover,
  squeeze,
  smell,
  bedTempC,
  worms,
  ph,
  visitors: [...new Set(visitors)],
});

const harvestDetail = ({ massKg, how, typed, destination, destinationNote }: HarvestBody): HarvestDetail => ({
  kind: 'harvest',
  grams: gramsFromKg(massKg),
  how,
  destination,
  destinationNote,
  ...typedColumns(typed),
});
