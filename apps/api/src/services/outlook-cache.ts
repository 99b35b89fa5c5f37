/** Outlooks of bins, kept as long as nothing they rest on has changed. */
import type { BinEvent, Ensemble, Outlook, WhatIfChoice } from '@middenry/domain';
import type { Context } from '../context.ts';
import { airReadings } from '../db/repositories/air-reading.ts';
import { type BinRow, findBin, listBins } from '../db/repositories/bin.ts';
import { entryHistory } from '../db/repositories/entry.ts';
import { harvestsToExpect } from '../db/repositories/harvest-expected.ts';
import { feedingShiftDays, intakeFeedings, logStamp } from '../db/repositories/outlook.ts';
import { findSite, type SiteRow } from '../db/repositories/site.ts';
import type { Store } from '../db/store.ts';
import type { WhatIfTold } from '../model/ahead.ts';
import { refuse } from '../refusal.ts';
import { PLAN_DAYS, type PlannedFeeding } from './feed-plan.ts';
import { keepExpected } from './harvest-expected.ts';
import { addDays } from './local-time.ts';
import { materialsOf } from './materials.ts';
import { type AheadModel, aheadInThread, MEMBERS, type Model, modelInThread, type TrialModel, trialInThread } from './model.ts';
import { scenarioOf, settingsOf } from './scenario.ts';
import { type Touch, touchOf } from './touched.ts';

interface Kept {
  /** All that the outlook rests on, as text. */
  readonly key: string;
  readonly outlook: Promise<Outlook>;
  readonly planned: readonly PlannedFeeding[];
  readonly historyDays: number;
  readonly today: string;
  /** What had touched the bin when the key was compared. */
  touch: Touch;
  /** Set as soon as it is worked out. */
  done: Outlook | null;
  /** The one of the same day that was told until this one is done. */
  older: Older | null;
}

interface Older {
  readonly outlook: Outlook;
  readonly planned: readonly PlannedFeeding[];
  readonly shared: number;
}

const keptOf = new WeakMap<Store, Map<string, Kept>>();
const modelOf = new WeakMap<Store, Model>();
const trialOf = new WeakMap<Store, TrialModel>();
const aheadModelOf = new WeakMap<Store, AheadModel>();

/** Lets a worker or a test work the outlooks out instead. */
export function useModel(store: Store, model: Model, trial: TrialModel = trialInThread, ahead: AheadModel = aheadInThread): void {
  modelOf.set(store, model);
  trialOf.set(store, trial);
  aheadModelOf.set(store, ahead);
  keptOf.delete(store);
}

export interface Outlooked {
  readonly outlook: Outlook;
  /** Today at the bin's site. */
  readonly today: string;
  /** Feedings that the forecast counts on. */
  readonly planned: readonly PlannedFeeding[];
}

type Asked = Pick<Context, 'store' | 'today'>;

/** What is so, why and what comes, of one bin on the day that it is at its site. */
export async function outlookFor(call: Asked, bin: BinRow, historyDays = USUAL_HISTORY_DAYS): Promise<Outlooked> {
  const { store } = call;
  const today = call.today(bin.timeZone);
  const kept = keptFor(store);
  const before = kept.get(bin.id);
  const known = before !== undefined && before.historyDays >= historyDays ? before : undefined;
  const touch = touchOf(store, bin.id);
  // Nothing of it has changed since: no need to look at what it rests on.
  if (known?.today === today && isSame(known.touch, touch)) return told(known);
  const { key, history } = restsOn(call, bin, today);
  if (known?.key === key) {
    known.touch = touch;
    return told(known);
  }
  const { scenario, today: day, planned } = scenarioOf({ ...history, entries: entryHistory(store, bin.id) });
  const days = Math.max(historyDays, USUAL_HISTORY_DAYS);
  const asked = Promise.resolve((modelOf.get(store) ?? modelInThread)(scenario, day, settingsOf(bin, { historyDays: days, planned })));
  const outlook = asked.then((answer) => {
    keepIfRoom(() => keepExpected(store, bin, answer.history));
    return answer;
  });
  const older = before?.today === today ? olderFrom(before) : null;
  const now: Kept = { key, outlook, planned, historyDays: days, today, touch, done: null, older };
  kept.set(bin.id, now);
  outlook.then(
    (done) => {
      now.done = done;
      now.older = null;
    },
    // A fault is not kept: the next reader tries again.
    () => kept.get(bin.id) === now && kept.delete(bin.id),
  );
  return told(now);
}

const isSame = (one: Touch, other: Touch): boolean => one.own === other.own && one.shared === other.shared;

const olderFrom = ({ done, planned, touch, older }: Kept): Older | null =>
  done === null ? older : { outlook: done, planned, shared: touch.shared };

/**
 * The outlook that was told before the bin's own log or settings changed last; null when that one still holds, is of
 * another day, or when anything else changed too.
 */
export function olderFor({ store, today }: Asked, bin: BinRow): Outlooked | null {
  const kept = keptFor(store).get(bin.id);
  const day = today(bin.timeZone);
  if (kept === undefined || kept.today !== day) return null;
  const touch = touchOf(store, bin.id);
  const older = isSame(kept.touch, touch) ? (kept.done === null ? kept.older : null) : olderFrom(kept);
  return older === null || older.shared !== touch.shared ? null : { outlook: older.outlook, today: day, planned: older.planned };
}

/** What cannot be written, on a full disk say, is no fault of who only wants to read; the next look tries again. */
function keepIfRoom(keep: () => void): void {
  try {
    keep();
  } catch {
    // The soundness checks tell of a store that cannot be written.
  }
}

/** Before harvests are told: an outlook for a bin that has some of which it is not kept yet what was expected. */
export async function expectHarvests(call: Asked, binId: string): Promise<void> {
  const bin = findBin(call.store, binId);
  if (bin === undefined) return;
  const from = addDays(call.today(bin.timeZone), 1 - USUAL_HISTORY_DAYS);
  if (harvestsToExpect(call.store, binId, from).length === 0) return;
  await outlookFor(call, bin).catch(() => undefined);
}

/** As many days back as a bin's page and its trend show; who wants more has them worked out. */
const USUAL_HISTORY_DAYS = 84;

const told = async ({ outlook, today, planned }: Kept): Promise<Outlooked> => ({ outlook: await outlook, today, planned });

/** Chance that a bin comes to trouble within the forecast when it is fed like this in the days ahead; asked one at a time. */
export async function troubleFor(call: Asked, bin: BinRow, events: (day: number) => readonly BinEvent[]): Promise<number> {
  const { history } = restsOn(call, bin, call.today(bin.timeZone));
  const { scenario, today: day } = scenarioOf({ ...history, entries: entryHistory(call.store, bin.id) });
  return (trialOf.get(call.store) ?? trialInThread)(scenario, day, settingsOf(bin, { historyDays: 1, planned: [] }), events(day));
}

/** A bin as it stands today at its site, to be tried on; nothing that is planned is in it. */
export async function ensembleFor(call: Asked, bin: BinRow): Promise<Ensemble> {
  const { model, asked } = aheadOfBin(call, bin);
  return model.ensembleOf(...asked);
}

/** What would come of a choice at a bin, and what comes when nothing is done. */
export async function whatIfFor(call: Asked, bin: BinRow, choice: WhatIfChoice): Promise<WhatIfTold> {
  const { model, asked } = aheadOfBin(call, bin);
  return model.whatIfOf(...asked, choice);
}

function aheadOfBin(call: Asked, bin: BinRow) {
  const { history } = restsOn(call, bin, call.today(bin.timeZone));
  const { scenario, today: day } = scenarioOf({ ...history, entries: entryHistory(call.store, bin.id) });
  const asked = [scenario, day, settingsOf(bin, { historyDays: 1, planned: [] })] as const;
  return { model: aheadModelOf.get(call.store) ?? aheadInThread, asked };
}

/** Asks for every bin once, so that the first reader does not have to wait for all of them. */
export async function warmOutlooks(call: Asked): Promise<void> {
  for (const bin of listBins(call.store)) if (bin.state !== 'retired') await outlookFor(call, bin);
}

function restsOn({ store }: Asked, bin: BinRow, today: string) {
  const site = findSite(store, bin.siteId);
  if (site === undefined) throw refuse('not-found');
  const own = materialsOf(store);
  const air = airReadings(store, { siteId: site.id, from: bin.startedOn, to: today });
  const ahead = { binId: bin.id, from: addDays(today, 1), to: addDays(today, PLAN_DAYS) };
  const shiftDays = feedingShiftDays(store, ahead);
  const intake = intakeFeedings(store, ahead);
  const key = keyOf([bin, climateOf(site), today, logStamp(store, bin.id), [...own.values()], air, shiftDays, intake]);
  const readings = air.map(({ on, meanC }) => [on, meanC] as const);
  return { key, history: { bin, site, today, own, airReadings: readings, members: MEMBERS, feedingShiftDays: shiftDays, intake } };
}

function keptFor(store: Store): Map<string, Kept> {
  const known = keptOf.get(store) ?? new Map<string, Kept>();
  keptOf.set(store, known);
  return known;
}

const climateOf = ({ minC, maxC }: SiteRow) => ({ minC, maxC });
const keyOf = (parts: readonly unknown[]): string => JSON.stringify(parts);
