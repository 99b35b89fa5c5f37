import type { BinOutlook, Flag } from './types.ts';

/** The flag that gives the bin its band; null when it is well. A bin nobody knows leads with that. */
export function leadOf(outlook: Pick<BinOutlook, 'band' | 'flags'>): Flag | null {
  if (outlook.band === 'settled') return null;
  if (outlook.band === 'unknown') return outlook.flags.find((x) => x.signal === 'unseen') ?? null;
  return outlook.flags.find((x) => x.band === outlook.band) ?? null;
}
