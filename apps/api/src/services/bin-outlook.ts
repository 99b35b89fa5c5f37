import type { BinOutlook } from '@middenry/contract';
import type { Context } from '../context.ts';
import { laidIn, notedFrom } from './bin-life.ts';
import { binOf } from './bins.ts';
import { inForce, noteShape, notesByBin } from './flag-notes.ts';
import { addDays } from './local-time.ts';
import { outlookFor } from './outlook-cache.ts';
import { binOutlook, datesFrom } from './outlook-shape.ts';

export async function readOutlook(call: Context, binId: string, historyDays: number): Promise<BinOutlook> {
  const bin = binOf(call.store, binId);
  const { outlook, today, planned } = await outlookFor(call, bin, historyDays);
  const noted = notedFrom(call.store, binId, addDays(today, 1 - historyDays));
  const laid = laidIn(call, binId);
  const told = binOutlook(bin, outlook, { dateOf: datesFrom(bin.startedOn), today, historyDays, planned, noted, laid });
  // As on the board: of a flag that is settled or part of another nothing is told.
  const raised = told.flags.filter(({ band, partOf }) => band !== 'settled' && partOf === null);
  return { ...told, notes: inForce(notesByBin(call)(binId), raised, today).map((row) => noteShape(call, row)) };
}
