import type { Board, BoardBin } from '@middenry/contract';
import type { Outlook } from '@middenry/domain';
import type { Context } from '../context.ts';
import { type BinRow, listBins } from '../db/repositories/bin.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import type { ShiftRow } from '../db/repositories/shift.ts';
import { findSite } from '../db/repositories/site.ts';
import { refuse } from '../refusal.ts';
import { inForce, isAside, noteShape, notesByBin } from './flag-notes.ts';
import { outlookSoon, patience } from './outlook-ahead.ts';
import { boardBin, datesFrom, type OutlookOfBin } from './outlook-shape.ts';
import { uncoveredShifts } from './shifts.ts';

/** Every bin at a glance, in the order in which they stand. */
export async function readBoard(call: Context, siteId: string | undefined): Promise<Board> {
  if (siteId !== undefined && findSite(call.store, siteId) === undefined) throw refuse('not-found');
  const bins: BoardBin[] = [];
  const notesOf = notesByBin(call);
  const wait = patience();
  for (const bin of listBins(call.store, { siteId })) {
    if (bin.state === 'retired') continue;
    const { outlook, today, anewSince } = await outlookSoon(call, bin, wait);
    const shape = shapeOf(bin, outlook);
    const notes = inForce(notesOf(bin.id), shape.flags, today);
    const told = { notes: notes.map((row) => noteShape(call, row)), isAside: isAside(shape.band, shape.flags, notes) };
    bins.push({ ...shape, ...told, anewSince });
  }
  const counts = { act: 0, watch: 0, unknown: 0, settled: 0 };
  for (const { band } of bins) counts[band] += 1;
  return {
    asOf: call.now.toISOString(),
    today: call.today(findProgramme(call.store)?.timeZone ?? 'UTC'),
    counts,
    aside: bins.filter((bin) => bin.isAside).length,
    bins,
    uncovered: uncoveredShifts(call, siteId ?? null).map(uncoveredShape),
  };
}

/** An outlook is made anew when anything of its bin changes, so its shape can be kept as long as itself. */
const shapes = new WeakMap<Outlook, OutlookOfBin>();

function shapeOf(bin: BinRow, outlook: Outlook): OutlookOfBin {
  const known = shapes.get(outlook) ?? boardBin(bin, outlook, datesFrom(bin.startedOn));
  shapes.set(outlook, known);
  return known;
}

const uncoveredShape = ({
  id,
  siteId,
  siteName,
  localDate,
  localTime,
  minutes,
  places,
  taken,
  title,
}: ShiftRow): Board['uncovered'][number] => ({
  ...{ shiftId: id, siteId, siteName, localDate, localTime, minutes, places, taken, title },
});
