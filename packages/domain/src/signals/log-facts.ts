import type { BinEvent, Leftover, Smell, Squeeze } from '../bin/scenario.ts';

/** The last time that something was written down, and which entry it was. */
export interface Seen<T> {
  readonly value: T;
  readonly day: number;
  readonly entryIds: readonly string[];
}

export interface FedFact {
  readonly day: number;
  readonly zone: number;
  readonly massKg: number;
  readonly beddingKg: number;
  readonly entryIds: readonly string[];
}

/** What the log says up to the end of one day. The same for every member. */
export interface LogFacts {
  readonly day: number;
  readonly smell: Seen<Smell> | null;
  readonly squeeze: Seen<Squeeze> | null;
  readonly tempC: Seen<number> | null;
  readonly ph: Seen<number> | null;
  /** Every reading of either kind, newest first. */
  readonly tempsC: readonly Seen<number>[];
  readonly phs: readonly Seen<number>[];
  readonly leftover: ReadonlyMap<number, Seen<Leftover>>;
  readonly soldierFliesDay: number | null;
  readonly lastCheckDay: number | null;
  readonly lastFedDay: number | null;
  readonly lastHarvestDay: number | null;
  readonly lastInoculatedDay: number | null;
  readonly lastLoosenedDay: number | null;
  /** Days on which each kind of care was last given, for ending a thing seen. */
  readonly lastCareDay: ReadonlyMap<BinEvent['type'], number>;
  /** Feedings of the last weeks, newest first. */
  readonly fed: readonly FedFact[];
}

/** Feedings older than this are no longer a reason for anything. */
const FEEDINGS_REMEMBERED_DAYS = 28;

/**
 * What the log says up to the end of a day.
 *
 * @shape events[n], day -> facts
 * @returns The last of each thing seen and done; later entries of one day win in the order given
 * @valid any order of days; events after the day are left out
 */
export function logFactsAt(events: readonly BinEvent[], day: number): LogFacts {
  const seen: { smell: Seen<Smell> | null; squeeze: Seen<Squeeze> | null; tempC: Seen<number> | null; ph: Seen<number> | null } = {
    smell: null,
    squeeze: null,
    tempC: null,
    ph: null,
  };
  const leftover = new Map<number, Seen<Leftover>>();
  const lastCareDay = new Map<BinEvent['type'], number>();
  const fed: FedFact[] = [];
  const [tempsC, phs]: [Seen<number>[], Seen<number>[]] = [[], []];
  let soldierFliesDay: number | null = null;
  for (const event of events) {
    if (event.day > day) continue;
    lastCareDay.set(event.type, Math.max(event.day, lastCareDay.get(event.type) ?? event.day));
    const entryIds = event.entryId === undefined ? [] : [event.entryId];
    if (event.type === 'feeding' && event.day > day - FEEDINGS_REMEMBERED_DAYS) {
      const massKg = event.items.reduce((sum, item) => sum + item.massKg, 0);
      fed.push({ day: event.day, zone: event.zone, massKg, beddingKg: event.beddingKg ?? 0, entryIds });
    }
    if (event.type !== 'check') continue;
    seen.smell = newer(seen.smell, event.smell, event.day, entryIds);
    seen.squeeze = newer(seen.squeeze, event.squeeze, event.day, entryIds);
    seen.tempC = newer(seen.tempC, event.tempC, event.day, entryIds);
    seen.ph = newer(seen.ph, event.ph, event.day, entryIds);
    if (event.tempC !== undefined) tempsC.unshift({ value: event.tempC, day: event.day, entryIds });
    if (event.ph !== undefined) phs.unshift({ value: event.ph, day: event.day, entryIds });
    for (const [zone, value] of Object.entries(event.leftover ?? {})) {
      const next = newer(leftover.get(Number(zone)) ?? null, value, event.day, entryIds);
      if (next) leftover.set(Number(zone), next);
    }
    if (event.visitors?.includes('soldier-fly-larvae')) soldierFliesDay = Math.max(soldierFliesDay ?? event.day, event.day);
  }
  for (const list of [fed, tempsC, phs]) list.sort((a, b) => b.day - a.day);
  const last = (type: BinEvent['type']): number | null => lastCareDay.get(type) ?? null;
  return {
    day,
    ...seen,
    tempsC,
    phs,
    leftover,
    soldierFliesDay,
    lastCheckDay: last('check'),
    lastFedDay: last('feeding'),
    lastHarvestDay: last('harvest'),
    lastInoculatedDay: last('inoculate'),
    lastLoosenedDay: last('loosen'),
    lastCareDay,
    fed,
  };
}

function newer<T>(before: Seen<T> | null, value: T | undefined, day: number, entryIds: readonly string[]): Seen<T> | null {
  if (value === undefined || (before !== null && before.day > day)) return before;
  return { value, day, entryIds };
}

/** A bad smell written down in the last week and not followed by an earthy one. */
export const stillSmells = (log: LogFacts): boolean =>
  log.smell !== null && log.smell.value !== 'earthy' && log.day - log.smell.day < SMELL_COUNTS_DAYS;

const SMELL_COUNTS_DAYS = 7;
