/** Words on flags: who has seen one, and what is put aside until when. None of them changes what a bin's band is (criteria A17, A18). */
import { ASIDE_MOST_DAYS, type Flag, type FlagNote, type FlagNoteInput } from '@middenry/contract';
import type { SignalId, SignalOutlook } from '@middenry/domain';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { findApplied } from '../db/repositories/applied.ts';
import type { BinRow } from '../db/repositories/bin.ts';
import {
  endFlagNote as end,
  endFlagNotesLike,
  type FlagNoteRow,
  flagNoteById,
  insertFlagNote,
  openFlagNotes,
} from '../db/repositories/flag-note.ts';
import { write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { binOf } from './bins.ts';
import { addDays } from './local-time.ts';
import { nameFor } from './names.ts';
import { once } from './once.ts';
import { outlookFor } from './outlook-cache.ts';

type Input = z.output<typeof FlagNoteInput>;
type RaisedBand = FlagNoteRow['band'];
const BADNESS: Readonly<Record<Flag['band'], number>> = { settled: 0, unknown: 1, watch: 1, act: 2 };

export async function noteFlag(call: Signed, binId: string, body: Input, ownSite: (siteId: string) => void): Promise<FlagNote> {
  const bin = binOf(call.store, binId);
  ownSite(bin.siteId);
  const signed = { ...body, binId };
  const find = () => noteShape(call, noteOrRefuse(call, body.id));
  // A retry may come when the flag is down again; what was taken once stays taken.
  if (findApplied(call.store, body.id) !== undefined) return once(call, 'noteFlag', signed, { make: find, find });
  const today = call.today(bin.timeZone);
  checkNote(body, today);
  const band = await raisedBand(call, bin, body.signal);
  return once(call, 'noteFlag', signed, {
    make: () => {
      const { id, signal, kind, reason, untilOn = null } = body;
      const madeAt = call.now.toISOString();
      endFlagNotesLike(call.store, { binId, signal, kind }, madeAt);
      insertFlagNote(call.store, { id, binId, signal, kind, band, reason, untilOn, madeOn: today, madeAt, personId: call.who.personId });
      call.audit(kind === 'aside' ? 'flag.put-aside' : 'flag.seen', binId, { signal, ...(untilOn === null ? {} : { untilOn }) });
      return find();
    },
    find,
  });
}

function checkNote({ kind, reason, untilOn }: Input, today: string): void {
  if (kind === 'seen') {
    if (untilOn !== undefined) throw refuseField('/untilOn', 'goes only with aside');
    return;
  }
  if (reason === '') throw refuseField('/reason', 'must say why it is put aside');
  if (untilOn === undefined) throw refuseField('/untilOn', 'must say until when');
  if (untilOn < today) throw refuseField('/untilOn', 'must not be over');
  if (untilOn > addDays(today, ASIDE_MOST_DAYS)) throw refuseField('/untilOn', `must be at most ${ASIDE_MOST_DAYS} days away`);
}

async function raisedBand(call: Context, bin: BinRow, signal: SignalId): Promise<RaisedBand> {
  const { outlook } = await outlookFor(call, bin);
  const raised = outlook.signals.find((one: SignalOutlook) => one.id === signal);
  if (raised === undefined || raised.band === 'settled') throw refuseField('/signal', 'is not raised at this bin');
  return raised.band;
}

export function endFlagNote(call: Signed, id: string, ownSite: (siteId: string) => void): void {
  write(call.store, () => {
    const row = noteOrRefuse(call, id);
    ownSite(row.siteId);
    if (end(call.store, id, call.now.toISOString()) > 0) call.audit('flag.taken-up', row.binId, { signal: row.signal, kind: row.kind });
  });
}

function noteOrRefuse(call: Context, id: string): FlagNoteRow {
  const row = flagNoteById(call.store, id);
  if (row === null) throw refuse('not-found');
  return row;
}

/** Open notes of every bin, read once for a whole board. */
export function notesByBin(call: Context): (binId: string) => readonly FlagNoteRow[] {
  const byBin = new Map<string, FlagNoteRow[]>();
  for (const row of openFlagNotes(call.store)) byBin.set(row.binId, [...(byBin.get(row.binId) ?? []), row]);
  return (binId) => byBin.get(binId) ?? [];
}

/** Those that still hold: their flag is up and no worse than it was, it is the same stretch that was seen, the day is not over. */
export function inForce(rows: readonly FlagNoteRow[], flags: readonly Flag[], today: string): FlagNoteRow[] {
  return rows.filter((row) => {
    const flag = flags.find(({ signal }) => signal === row.signal);
    if (flag === undefined || BADNESS[flag.band] > BADNESS[row.band]) return false;
    if (row.untilOn !== null) return row.untilOn >= today;
    return flag.sinceOn === null || flag.sinceOn <= row.madeOn;
  });
}

/** A bin is aside when every flag that gives it its band is. */
export function isAside(band: Flag['band'], flags: readonly Flag[], notes: readonly FlagNoteRow[]): boolean {
  const lead = flags.filter((flag) => flag.band === band);
  return band !== 'settled' && lead.length > 0 && lead.every(({ signal }) => notes.some((n) => n.kind === 'aside' && n.signal === signal));
}

/** Readers by link see no names, and pupils no free text of others. */
export function noteShape(call: Context, row: FlagNoteRow): FlagNote {
  const { id, signal, kind, reason, untilOn, madeAt, personId, personName } = row;
  const by =
    call.who === null || personName === null ? null : { id: personId, name: nameFor(call.who, { id: personId, name: personName }) };
  const mayRead = call.who !== null && call.who.role !== 'pupil';
  return { id, signal, kind, reason: mayRead ? reason : '', untilOn, at: madeAt, by };
}
