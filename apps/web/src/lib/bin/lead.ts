import type { BinOutlook, Flag } from './types.ts';

/** The flag that gives the bin its band; null when it is well. A bin nobody knows leads with that. */
export function leadOf(outlook: Pick<BinOutlook, 'band' | 'flags'>): Flag | null {
  if (outlook.band === 'settled') return null;
  if (outlook.band === 'unknown') return outlook.flags.find((x) => x.signal === 'unseen') ?? null;
  return outlook.flags.find((x) => x.band === outlook.band && x.partOf === null) ?? null;
}

/** The other flags, each cause told once: what another flag speaks for is in its reasons. */
export function othersOf(outlook: Pick<BinOutlook, 'flags'>, lead: Flag | null): Flag[] {
  return outlook.flags.filter((x) => x.band !== 'settled' && x.partOf === null && x.signal !== lead?.signal);
}

/** The one look that tells most: of the flag that leads, or else of the first that has one. */
export function askOf(outlook: Pick<BinOutlook, 'flags'>, lead: Flag | null): Flag['ask'] {
  return lead?.ask ?? outlook.flags.find((x) => x.ask !== null)?.ask ?? null;
}
