/** Correcting an entry: what it said is kept, and nobody overwrites what they have not seen (criteria B25). */
import { CareNew, type Entry, type EntryVersion, WormsNew } from '@middenry/contract';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { harvestSite, putHarvestSite } from '../db/repositories/castings.ts';
import { keepRevision, replaceEntry, revisionsOf } from '../db/repositories/entry.ts';
import type { EntryDetail, EntryRow } from '../db/repositories/entry-types.ts';
import { forgetHarvestExpected } from '../db/repositories/harvest-expected.ts';
import { write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { settleBinState, settlesBin } from './bin-state.ts';
import { checkStore, checkStoreOf } from './castings.ts';
import { entryBinOrRefuse, entryOrRefuse, leadsSite, mayChange, readEntry, readerOf } from './entries.ts';
import { detailOf, type EntryContent } from './entry-content.ts';
import { checkEntry, placeInTime } from './entry-rules.ts';
import { entryShape } from './entry-shape.ts';
import { dated } from './harvest.ts';

export interface Correction {
  readonly id: string;
  /** The revision that was seen when correcting began, from If-Match. */
  readonly revision: number;
  readonly content: EntryContent;
}

export function correct(call: Signed, { id, revision, content }: Correction, own: (mine: boolean) => void): Entry {
  return write(call.store, () => {
    const row = entryOrRefuse(call, id);
    own(mayChange(call, row));
    if (row.undoneAt !== null) throw refuse('already-undone');
    if (row.revision !== revision) throw refuse('changed-meanwhile', { help: { theirs: readEntry(call, id), yours: content } });
    if (row.kind !== content.kind) throw refuseField('/kind', `must stay ${row.kind}`);
    checkWhole(row, content);
    replaceChecked(call, row, content);
    if (row.personId !== call.who.personId) call.audit('entry.corrected-for-another', id, { kind: row.kind, binId: row.binId });
    return readEntry(call, id);
  });
}

/** Rules between fields belong to the shape of a new entry; a corrected one must keep to them too. */
function checkWhole(row: EntryRow, content: EntryContent): void {
  if (content.kind !== 'care' && content.kind !== 'worms') return;
  const { kind, ...fields } = content;
  const checked = (kind === 'care' ? CareNew : WormsNew).safeParse({ ...fields, id: row.id });
  const issue = checked.error?.issues[0];
  if (issue) throw refuseField(issue.path.map((part) => `/${String(part)}`).join(''), issue.message);
}

function replaceChecked(call: Signed, row: EntryRow, content: EntryContent): void {
  const detail = detailOf(content);
  const bin = entryBinOrRefuse(call, content.binId);
  // Of somebody else's entries a site lead keeps those of their sites, and moves none to a site that is not theirs.
  if (row.personId !== call.who.personId && call.who.role !== 'coordinator' && !leadsSite(call.who, bin.siteId)) throw refuse('not-found');
  checkEntry(call, bin, { detail, shiftId: content.shiftId });
  const { happenedAt, localDate } = placeInTime(bin, { happenedAt: content.happenedAt }, call.now);
  keepRevision(call.store, { row, at: call.now.toISOString(), personId: call.who.personId });
  const { binId, shiftId, note } = content;
  const storeSiteId = harvestSite(call.store, row.id);
  replaceEntry(call.store, row, { binId, shiftId, note, happenedAt, localDate }, dated(detail, localDate));
  if (row.binId !== binId || row.localDate !== localDate) forgetHarvestExpected(call.store, row.id);
  if (storeSiteId !== null) settleStore(call, row, { binId, storeSiteId });
  if (settlesBin(detail) || settlesBin(row)) for (const id of new Set([row.binId, binId])) settleBinState(call, id);
}

/** Castings stay in the store they went into while their bin is the same; neither store may come to hold less than nothing. */
function settleStore(call: Signed, row: EntryRow, { binId, storeSiteId }: { binId: string; storeSiteId: string }): void {
  if (binId === row.binId) putHarvestSite(call.store, row.id, storeSiteId);
  else checkStore(call, storeSiteId);
  checkStoreOf(call, row.id);
}

/** What an entry said before, newest first. */
export function entryHistory(call: Context, id: string): z.output<typeof EntryVersion>[] {
  const row = entryOrRefuse(call, id);
  const reader = readerOf(call);
  return revisionsOf(call.store, id).map(({ body, replacedAt, replacedBy, replacedByName }) => {
    const { personName, siteId } = row;
    const kept = JSON.parse(body) as EntryRow & EntryDetail;
    const binCode = reader.binCode(kept.binId) ?? row.binCode;
    const by =
      replacedBy === null || replacedByName === null
        ? null
        : { id: replacedBy, name: reader.name({ id: replacedBy, name: replacedByName }) };
    return { replacedAt, replacedBy: by, entry: entryShape({ ...kept, personName, siteId, binCode }, reader) };
  });
}
