/** Outlooks of bins, kept as long as nothing they rest on has changed. */
import type { Outlook } from '@middenry/domain';
import type { Context } from '../context.ts';
import { airReadings } from '../db/repositories/air-reading.ts';
import type { BinRow } from '../db/repositories/bin.ts';
import { entryHistory } from '../db/repositories/entry.ts';
import { logStamp } from '../db/repositories/outlook.ts';
import { findSite, type SiteRow } from '../db/repositories/site.ts';
import type { Store } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { materialsOf } from './materials.ts';
import { MEMBERS, type Model, modelInThread } from './model.ts';
import { scenarioOf, settingsOf } from './scenario.ts';

interface Kept {
  readonly key: string;
  readonly outlook: Promise<Outlook>;
}

const keptOf = new WeakMap<Store, Map<string, Kept>>();
const modelOf = new WeakMap<Store, Model>();

/** Lets a worker or a test work the outlooks out instead. */
export function useModel(store: Store, model: Model): void {
  modelOf.set(store, model);
  keptOf.delete(store);
}

export interface Outlooked {
  readonly outlook: Outlook;
  /** Today at the bin's site. */
  readonly today: string;
}

/** What is so, why and what comes, of one bin on the day that it is at its site. */
export async function outlookFor(call: Context, bin: BinRow): Promise<Outlooked> {
  const { store } = call;
  const site = findSite(store, bin.siteId);
  if (site === undefined) throw refuse('not-found');
  const today = call.today(site.timeZone);
  const own = materialsOf(store);
  const air = airReadings(store, { siteId: site.id, from: bin.startedOn, to: today });
  const key = keyOf([bin, climateOf(site), today, logStamp(store, bin.id), [...own.values()], air]);
  const kept = keptFor(store);
  const known = kept.get(bin.id);
  if (known?.key === key) return { outlook: await known.outlook, today };
  const readings = air.map(({ on, meanC }) => [on, meanC] as const);
  const history = { bin, site, today, own, airReadings: readings, entries: entryHistory(store, bin.id), members: MEMBERS };
  const { scenario, today: day } = scenarioOf(history);
  const outlook = Promise.resolve((modelOf.get(store) ?? modelInThread)(scenario, day, settingsOf(bin)));
  kept.set(bin.id, { key, outlook });
  // A fault is not kept: the next reader tries again.
  outlook.catch(() => kept.delete(bin.id));
  return { outlook: await outlook, today };
}

function keptFor(store: Store): Map<string, Kept> {
  const known = keptOf.get(store) ?? new Map<string, Kept>();
  keptOf.set(store, known);
  return known;
}

const climateOf = ({ minC, maxC }: SiteRow) => ({ minC, maxC });
const keyOf = (parts: readonly unknown[]): string => JSON.stringify(parts);
