/** A bin's life in a few figures, and what its log says of each day. */
import type { BinLife, BinOutlook } from '@middenry/contract';
import { kgFromGrams } from '@middenry/domain';
import type { Context } from '../context.ts';
import { keepersOf, type LifeChangeRow, laidLast, lifeChanges, lifeSums, type NotedRow, notedDays } from '../db/repositories/bin-life.ts';
import { lastHarvests } from '../db/repositories/harvest-expected.ts';
import type { Store } from '../db/store.ts';
import { binOf } from './bins.ts';
import { expectedShape } from './harvest-expected.ts';
import { daysBetween } from './local-time.ts';
import { materialNames } from './materials.ts';
import { nameFor } from './names.ts';
import { expectHarvests } from './outlook-cache.ts';

/** Enough names to tell a bin's story, and no list of people. */
const MOST_KEEPERS = 12;
const MOST_HARVESTS = 12;

export async function readLife(call: Context, binId: string): Promise<BinLife> {
  const bin = binOf(call.store, binId);
  await expectHarvests(call, binId);
  const { fedG, harvestedG, ...counts } = lifeSums(call.store, binId);
  return {
    binId,
    startedOn: bin.startedOn,
    ageDays: Math.max(0, daysBetween(bin.startedOn, call.today(bin.timeZone))),
    fedKg: kgFromGrams(fedG),
    harvestedKg: kgFromGrams(harvestedG),
    ...counts,
    wormsThenKg: kgFromGrams(bin.startWormsG),
    keeping: keepersOf(call.store, binId, MOST_KEEPERS).map(({ personId, personName, ...when }) => ({
      ...when,
      by: personId === null || personName === null ? null : { id: personId, name: nameFor(call.who, { id: personId, name: personName }) },
    })),
    lastHarvests: lastHarvests(call.store, binId, MOST_HARVESTS).map(({ entryId, localDate, grams, how }) => ({
      ...{ entryId, how, on: localDate, massKg: kgFromGrams(grams) },
      expected: expectedShape(call.store, entryId),
    })),
    changes: lifeChanges(call.store, binId).map(changeShape),
  };
}

function changeShape({ localDate, grams, what, exposure, ...rest }: LifeChangeRow): BinLife['changes'][number] {
  type Change = BinLife['changes'][number];
  return {
    ...rest,
    on: localDate,
    what: what as Change['what'],
    exposure: exposure as Change['exposure'],
    massKg: grams === null ? null : kgFromGrams(grams),
  };
}

/** What lies where: what was fed last in each zone that was ever fed. */
export function laidIn(call: Context, binId: string): BinOutlook['laid'] {
  const nameOf = materialNames(call);
  const zones = new Map<number, BinOutlook['laid'][number]['materials']>();
  for (const { zone, materialId } of laidLast(call.store, binId))
    zones.set(zone, [...(zones.get(zone) ?? []), { materialId, name: nameOf(materialId) }]);
  return [...zones].map(([zone, materials]) => ({ zone, materials }));
}

const NOTED_AS = {
  feeding: 'fed',
  check: 'seen',
  note: 'seen',
  harvest: 'taken',
  care: 'cared',
  worms: 'cared',
} as const satisfies Record<NotedRow['kind'], BinOutlook['noted'][number]['kind']>;

/** What was noted from a day on: entries of the same sense on one day are told once. */
export function notedFrom(store: Store, binId: string, from: string): BinOutlook['noted'] {
  const days = new Map<string, BinOutlook['noted'][number]>();
  for (const { localDate, kind, times } of notedDays(store, { binId, from })) {
    const key = `${localDate} ${NOTED_AS[kind]}`;
    days.set(key, { on: localDate, kind: NOTED_AS[kind], times: times + (days.get(key)?.times ?? 0) });
  }
  return [...days.values()];
}
