import type { BinOutlook } from '@middenry/contract';
import type { Context } from '../context.ts';
import { notedFrom } from './bin-life.ts';
import { binOf } from './bins.ts';
import { addDays } from './local-time.ts';
import { outlookFor } from './outlook-cache.ts';
import { binOutlook, datesFrom } from './outlook-shape.ts';

export async function readOutlook(call: Context, binId: string, historyDays: number): Promise<BinOutlook> {
  const bin = binOf(call.store, binId);
  const { outlook, today, planned } = await outlookFor(call, bin, historyDays);
  const noted = notedFrom(call.store, binId, addDays(today, 1 - historyDays));
  return binOutlook(bin, outlook, { dateOf: datesFrom(bin.startedOn), today, historyDays, planned, noted });
}
