import type { BinOutlook } from '@middenry/contract';
import type { Context } from '../context.ts';
import { binOf } from './bins.ts';
import { outlookFor } from './outlook-cache.ts';
import { binOutlook, datesFrom } from './outlook-shape.ts';

export async function readOutlook(call: Context, binId: string, historyDays: number): Promise<BinOutlook> {
  const bin = binOf(call.store, binId);
  const { outlook, today, planned } = await outlookFor(call, bin, historyDays);
  return binOutlook(bin, outlook, { dateOf: datesFrom(bin.startedOn), today, historyDays, planned });
}
