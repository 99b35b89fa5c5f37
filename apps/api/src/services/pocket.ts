/** What a phone carries to the bin, without the names of others (criteria E.2). */
import { createHash } from 'node:crypto';
import type { Entry, Pocket } from '@middenry/contract';
import type { Signed } from '../context.ts';
import { type BinRow, listBins } from '../db/repositories/bin.ts';
import { entryPage } from '../db/repositories/entry.ts';
import { binShape } from './bins.ts';
import { readerOf } from './entries.ts';
import { entryShape, type Reader } from './entry-shape.ts';
import { outlookFor } from './outlook-cache.ts';
import { binOutlook, datesFrom } from './outlook-shape.ts';
import { sessionShape } from './session-shape.ts';
import { readShiftCard } from './shift-card.ts';
import { listShifts } from './shifts.ts';
import { listContainers, listMaterials } from './stuff.ts';

/** Enough to know what a bin usually gets, and to take back the last few. */
const ENTRIES_PER_BIN = 12;
const SHIFTS = 3;

export async function readPocket(call: Signed): Promise<Pocket> {
  const reader = readerOf(call);
  const bins: Pocket['bins'] = [];
  for (const bin of listBins(call.store, {})) bins.push(await pocketBin(call, bin, reader));
  return {
    asOf: call.now.toISOString(),
    session: sessionShape(call, call.who),
    bins,
    containers: listContainers(call, undefined).filter(({ archived }) => !archived),
    materials: listMaterials(call),
    shifts: await myShifts(call),
  };
}

/** The same as long as nothing in it changed but the time at which it was read. */
export function pocketTag({ asOf: _asOf, ...content }: Pocket): string {
  return `"${createHash('sha256').update(JSON.stringify(content)).digest('base64url').slice(0, 27)}"`;
}

async function pocketBin(call: Signed, row: BinRow, reader: Reader): Promise<Pocket['bins'][number]> {
  const { rows } = entryPage(call.store, { binId: row.id, before: '9999', limit: ENTRIES_PER_BIN });
  const entries = rows.slice(0, ENTRIES_PER_BIN).map((entry) => onlyMine(entryShape(entry, reader)));
  if (row.state === 'retired') return { bin: binShape(row), outlook: null, entries };
  const { outlook, today, planned } = await outlookFor(call, row);
  const { binId, band, zones, advice } = binOutlook(row, outlook, { dateOf: datesFrom(row.startedOn), today, historyDays: 0, planned });
  return { bin: binShape(row), outlook: { binId, today, band, zones, advice }, entries };
}

/** A name may stand in what somebody wrote as well as under it. */
const onlyMine = (entry: Entry): Entry => (entry.mine ? entry : { ...entry, by: null, note: '' });

async function myShifts(call: Signed): Promise<Pocket['shifts']> {
  const next = listShifts(call, { mine: true })
    .filter(({ over, cancelled }) => !over && !cancelled)
    .slice(0, SHIFTS);
  const shifts: Pocket['shifts'] = [];
  for (const { id, siteName, title, localDate, localTime, timeZone, minutes } of next) {
    const { shift: _shift, bins, ...card } = await readShiftCard(call, id);
    const quiet = bins.map((bin) => ({ ...bin, duties: bin.duties.map((duty) => ({ ...duty, note: '' })) }));
    shifts.push({ ...card, bins: quiet, ...{ id, siteName, title, localDate, localTime, timeZone, minutes } });
  }
  return shifts;
}
