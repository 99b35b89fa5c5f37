/** What the board and the duties need of a bin's outlook: a hundredth of the whole, so that it can be kept of every bin. */
import type { Outlook, SignalOutlook } from '@middenry/domain';
import type { BinRow } from '../db/repositories/bin.ts';
import { boardBin, datesFrom, type OutlookOfBin } from './outlook-shape.ts';

export interface Brief {
  readonly board: OutlookOfBin;
  readonly duties: Outlook['duties'];
  /** Those in act alone: they make a duty one of today. */
  readonly signals: readonly SignalOutlook[];
}

/** An outlook is made anew when anything of its bin changes, so what is told of it can be kept as long as itself. */
const briefs = new WeakMap<Outlook, Brief>();

export function briefOf(bin: BinRow, outlook: Outlook): Brief {
  const known = briefs.get(outlook) ?? {
    board: boardBin(bin, outlook, datesFrom(bin.startedOn)),
    duties: outlook.duties,
    signals: outlook.signals.filter(({ band }) => band === 'act'),
  };
  briefs.set(outlook, known);
  return known;
}
