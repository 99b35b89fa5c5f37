import { setImmediate } from 'node:timers/promises';
import type { Board, BoardBin } from '@middenry/contract';
import type { Context } from '../context.ts';
import { listBins } from '../db/repositories/bin.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import type { ShiftRow } from '../db/repositories/shift.ts';
import { findSite } from '../db/repositories/site.ts';
import { refuse } from '../refusal.ts';
import { inForce, isAside, noteShape, notesByBin } from './flag-notes.ts';
import { briefSoon, patience } from './outlook-ahead.ts';
import { uncoveredShifts } from './shifts.ts';

/** After so long without a pause others are let in: thousands of bins take the server's thread for seconds. */
const TURN_MS = 20;

/** Every bin at a glance, in the order in which they stand. */
export async function readBoard(call: Context, siteId: string | undefined): Promise<Board> {
  if (siteId !== undefined && findSite(call.store, siteId) === undefined) throw refuse('not-found');
  const bins: BoardBin[] = [];
  const notesOf = notesByBin(call);
  const waiting: Board['waiting'] = [];
  const wait = patience();
  let turn = performance.now();
  for (const bin of listBins(call.store, { siteId })) {
    if (bin.state === 'retired') continue;
    if (performance.now() - turn > TURN_MS) {
      await setImmediate();
      turn = performance.now();
    }
    const known = await briefSoon(call, bin, wait);
    if (known === null) {
      const { id, code, name, siteId, siteName } = bin;
      waiting.push({ id, code, name, siteId, siteName });
      continue;
    }
    const { brief, today, anewSince } = known;
    const shape = brief.board;
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
    waiting,
    uncovered: uncoveredShifts(call, siteId ?? null).map(uncoveredShape),
  };
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
