/** Noting, reading and undoing what people did and saw at a bin. Correcting is in entry-corrections.ts. */
import type { Entry } from '@middenry/contract';
import type { Context, Signed, Who } from '../context.ts';
import { findBin } from '../db/repositories/bin.ts';
import { entryById, entryPage, insertEntry, undoEntry } from '../db/repositories/entry.ts';
import { binForEntry, type EntryBinRow } from '../db/repositories/entry-place.ts';
import type { EntryDetail, EntryRow } from '../db/repositories/entry-types.ts';
import { write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { settleBinState, settlesBin } from './bin-state.ts';
import { checkStoreOf } from './castings.ts';
import { detailOf, type EntryContent } from './entry-content.ts';
import { checkEntry, placeInTime } from './entry-rules.ts';
import { entryShape, type Reader } from './entry-shape.ts';
import { dated } from './harvest.ts';
import { expectedShape } from './harvest-expected.ts';
import { materialNames } from './materials.ts';
import { nameFor } from './names.ts';
import { once } from './once.ts';
import { expectHarvests } from './outlook-cache.ts';

/** Each kind of entry is sent to an address of its own. */
const ROUTE_OF = {
  feeding: 'logFeeding',
  check: 'logCheck',
  harvest: 'logHarvest',
  care: 'logCare',
  note: 'logNote',
  worms: 'logWorms',
} as const satisfies Record<EntryContent['kind'], string>;

/** Pupils may take back a slip of the finger for this long; everybody else at any time (criteria E.4). */
const PUPIL_UNDO_MS = 600_000;

type New<Kind extends EntryContent['kind']> = Omit<Extract<EntryContent, { kind: Kind }>, 'kind'> & {
  readonly id: string;
  readonly deviceAt?: string | undefined;
};

/** Notes something once, however often a phone sends it. */
export function logEntry<Kind extends EntryContent['kind']>(call: Signed, kind: Kind, body: New<Kind>): Extract<Entry, { kind: Kind }> {
  const find = () => entryOrRefuse(call, body.id);
  const make = () => {
    insertChecked(call, body, detailOf({ ...body, kind } as unknown as EntryContent));
    return find();
  };
  return entryShape(once(call, ROUTE_OF[kind], body, { make, find }), readerOf(call)) as Extract<Entry, { kind: Kind }>;
}

interface SentCore {
  readonly id: string;
  readonly binId: string;
  readonly shiftId: string | null;
  readonly note: string;
  readonly happenedAt: string;
  readonly deviceAt?: string | undefined;
}

function insertChecked(call: Signed, sent: SentCore, detail: EntryDetail): void {
  const { store, now, who } = call;
  const bin = entryBinOrRefuse(call, sent.binId);
  checkEntry(call, bin, { detail, shiftId: sent.shiftId });
  const when = placeInTime(bin, sent, now);
  const { id, binId, shiftId, note } = sent;
  const core = { id, binId, personId: who.personId, shiftId, note, receivedAt: now.toISOString(), ...when };
  insertEntry(store, core, dated(detail, when.localDate));
  if (settlesBin(detail)) settleBinState(call, binId);
}

/** A harvest stands beside what was expected before it. */
export async function tellEntry(call: Context, id: string): Promise<Entry> {
  const { kind, binId } = entryOrRefuse(call, id);
  if (kind === 'harvest') await expectHarvests(call, binId);
  return readEntry(call, id);
}

export function readEntry(call: Context, id: string): Entry {
  return entryShape(entryOrRefuse(call, id), readerOf(call));
}

export async function listEntries(
  call: Context,
  binId: string,
  page: { before?: string | undefined; limit: number },
): Promise<{ items: Entry[]; more: boolean }> {
  entryBinOrRefuse(call, binId);
  await expectHarvests(call, binId);
  // Nothing is noted further ahead than a phone's clock may be fast, so this is after everything.
  const before = page.before === undefined ? '9999' : new Date(page.before).toISOString();
  const { rows, more } = entryPage(call.store, { binId, before, limit: page.limit });
  const reader = readerOf(call);
  return { items: rows.map((row) => entryShape(row, reader)), more };
}

/** Takes an entry out of the log; what it said is kept. Whose it is is asked before anything else is told. */
export function undo(call: Signed, id: string, own: (mine: boolean) => void): Entry {
  return write(call.store, () => {
    const row = entryOrRefuse(call, id);
    own(mayChange(call, row));
    if (row.undoneAt !== null) throw refuse('already-undone');
    undoEntry(call.store, { row, at: call.now.toISOString(), personId: call.who.personId });
    if (row.kind === 'harvest') checkStoreOf(call, id);
    if (settlesBin(row)) settleBinState(call, row.binId);
    if (row.personId !== call.who.personId) call.audit('entry.undone-for-another', id, { kind: row.kind, binId: row.binId });
    return readEntry(call, id);
  });
}

/** One's own, and for pupils only for a short while; whoever leads a site sees to everything noted at its bins. */
export function mayChange(call: Signed, row: EntryRow): boolean {
  const { role, personId } = call.who;
  if (role === 'site-lead' && leadsSite(call.who, row.siteId)) return true;
  const isLate = call.now.getTime() - Date.parse(row.receivedAt) > PUPIL_UNDO_MS;
  return row.personId === personId && !(role === 'pupil' && isLate);
}

/** No site named: every site. */
export const leadsSite = ({ siteIds }: Who, siteId: string): boolean => siteIds.length === 0 || siteIds.includes(siteId);

export function entryOrRefuse(call: Context, id: string): EntryRow {
  const row = entryById(call.store, id);
  if (row === null) throw refuse('not-found');
  return row;
}

export function entryBinOrRefuse(call: Context, binId: string): EntryBinRow {
  const bin = binForEntry(call.store, binId);
  if (bin === null) throw refuse('not-found');
  return bin;
}

export const readerOf = (call: Context): Reader => ({
  who: call.who,
  materialName: materialNames(call),
  name: (person) => nameFor(call.who, person),
  expected: (entryId) => expectedShape(call.store, entryId),
  binCode: (binId) => findBin(call.store, binId)?.code ?? null,
});
