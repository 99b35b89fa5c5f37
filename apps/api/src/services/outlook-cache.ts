/** Outlooks of bins, kept as long as nothing they rest on has changed and there is room; what the board tells of each, always. */
import { createHash } from 'node:crypto';
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
import { type Brief, briefOf } from './outlook-brief.ts';
import { type Budget, budgetOf, bytesOf } from './outlook-budget.ts';
import { scenarioOf, settingsOf } from './scenario.ts';
import { type Touch, touchOf } from './touched.ts';

interface Kept {
  /** Says all that the outlook rests on. */
  readonly key: string;
  /** Null once it had to make room for others: whoever asks for it then has it worked out again. */
  outlook: Promise<Outlook> | null;
  readonly planned: readonly PlannedFeeding[];
  readonly historyDays: number;
  readonly today: string;
  /** What had touched the bin when the key was compared. */
  touch: Touch;
  /** Set as soon as it is worked out, until it makes room. */
  done: Outlook | null;
  /** As text, once the whole had to make room. */
  brief: string | null;
  /** What was told on the same day until this one is done. */
  older: Older | null;
}

interface Older {
  readonly brief: Brief;
  readonly shared: number;
}

interface Shelf {
  readonly kept: Map<string, Kept>;
  readonly budget: Budget;
}

const shelfOf = new WeakMap<Store, Shelf>();
const modelOf = new WeakMap<Store, Model>();
const trialOf = new WeakMap<Store, TrialModel>();
const aheadModelOf = new WeakMap<Store, AheadModel>();

/** Lets a worker or a test work the outlooks out instead. */
export function useModel(store: Store, model: Model, trial: TrialModel = trialInThread, ahead: AheadModel = aheadInThread): void {
  modelOf.set(store, model);
  trialOf.set(store, trial);
  aheadModelOf.set(store, ahead);
  shelfOf.delete(store);
}

/** Lets a test say how much of them is kept. */
export const keepAtMost = (store: Store, bytes: number): void => void shelfOf.set(store, { kept: new Map(), budget: budgetOf(bytes) });

export interface Outlooked {
  readonly outlook: Outlook;
  /** Today at the bin's site. */
  readonly today: string;
  /** Feedings that the forecast counts on. */
  readonly planned: readonly PlannedFeeding[];
}

type Asked = Pick<Context, 'store' | 'today'>;

/** What is so, why and what comes, of one bin on the day that it is at its site. */
export const outlookFor = (call: Asked, bin: BinRow, historyDays = USUAL_HISTORY_DAYS): Promise<Outlooked> =>
  workedOut(call, bin, lookAt(call, bin), historyDays);

async function workedOut(call: Asked, bin: BinRow, look: Look, historyDays: number): Promise<Outlooked> {
  const { store } = call;
  const { shelf, today, known } = look;
  if (known?.outlook && known.historyDays >= historyDays) return told(shelf, bin, known, known.outlook);
  const before = shelf.kept.get(bin.id);
  const { key, history } = look.rests ?? restsOn(call, bin, today);
  const touch = touchOf(store, bin.id);
  const { scenario, today: day, planned } = scenarioOf({ ...history, entries: entryHistory(store, bin.id) });
  const days = Math.max(historyDays, USUAL_HISTORY_DAYS);
  const asked = Promise.resolve((modelOf.get(store) ?? modelInThread)(scenario, day, settingsOf(bin, { historyDays: days, planned })));
  const outlook = asked.then((answer) => {
    keepIfRoom(() => keepExpected(store, bin, answer.history));
    return answer;
  });
  const older = before?.today === today ? olderFrom(bin, before) : null;
  const now: Kept = { key, outlook, planned, historyDays: days, today, touch, done: null, brief: textOf(bin, known), older };
  shelf.kept.set(bin.id, now);
  outlook.then(
    (done) => {
      now.done = done;
      now.older = null;
      if (shelf.kept.get(bin.id) === now) use(shelf, bin, now, done);
    },
    // A fault is not kept: the next reader tries again.
    () => shelf.kept.get(bin.id) === now && shelf.kept.delete(bin.id),
  );
  return told(shelf, bin, now, outlook);
}

interface Look {
  readonly shelf: Shelf;
  readonly today: string;
  /** What is kept of the bin, if nothing that it rests on has changed since. */
  readonly known: Kept | undefined;
  /** Set where that had to be gone through. */
  readonly rests?: ReturnType<typeof restsOn>;
}

function lookAt(call: Asked, bin: BinRow): Look {
  const { store } = call;
  const [shelf, today] = [shelfFor(store), call.today(bin.timeZone)];
  const kept = shelf.kept.get(bin.id);
  if (kept === undefined || kept.today !== today) return { shelf, today, known: undefined };
  const touch = touchOf(store, bin.id);
  // Nothing of it has changed since: no need to look at what it rests on.
  if (isSame(kept.touch, touch)) return { shelf, today, known: kept };
  const rests = restsOn(call, bin, today);
  if (rests.key !== kept.key) return { shelf, today, known: undefined, rests };
  kept.touch = touch;
  return { shelf, today, known: kept, rests };
}

const isSame = (one: Touch, other: Touch): boolean => one.own === other.own && one.shared === other.shared;

/** Marks it as asked for just now; another, asked for longest ago, may have to make room. */
function use({ budget }: Shelf, bin: BinRow, kept: Kept, done: Outlook): void {
  budget.use(bin.id, bytesOf(done), () => {
    kept.brief = JSON.stringify(briefOf(bin, done));
    [kept.done, kept.outlook] = [null, null];
  });
}

/** What the board tells of it, from the whole or from what was left of it; null until it is worked out. */
const briefIn = (bin: BinRow, { done, brief }: Kept): Brief | null =>
  done !== null ? briefOf(bin, done) : brief === null ? null : (JSON.parse(brief) as Brief);

const textOf = (bin: BinRow, kept: Kept | undefined): string | null =>
  kept === undefined ? null : (kept.brief ?? (kept.done === null ? null : JSON.stringify(briefOf(bin, kept.done))));

export interface Briefed {
  readonly brief: Brief;
  /** Today at the bin's site. */
  readonly today: string;
}

/** What the board and the duties tell of a bin: of as many bins as there are, without working any out twice. */
export async function briefFor(call: Asked, bin: BinRow): Promise<Briefed> {
  const { now, later } = briefing(call, bin);
  return now ?? (await later());
}

/** The same: what is there already, or null, and how to have it worked out, to be called at once. */
export function briefing(call: Asked, bin: BinRow): { readonly now: Briefed | null; readonly later: () => Promise<Briefed> } {
  const look = lookAt(call, bin);
  const { today } = look;
  const brief = look.known === undefined ? null : briefIn(bin, look.known);
  const later = async () => ({ brief: briefOf(bin, (await workedOut(call, bin, look, USUAL_HISTORY_DAYS)).outlook), today });
  return { now: brief === null ? null : { brief, today }, later };
}

function olderFrom(bin: BinRow, kept: Kept): Older | null {
  const brief = briefIn(bin, kept);
  return brief === null ? kept.older : { brief, shared: kept.touch.shared };
}

/**
 * What was told before the bin's own log or settings changed last; null when that still holds, is of another day, or
 * when anything else changed too.
 */
export function olderFor({ store, today }: Asked, bin: BinRow): Briefed | null {
  const kept = shelfFor(store).kept.get(bin.id);
  const day = today(bin.timeZone);
  if (kept === undefined || kept.today !== day) return null;
  const touch = touchOf(store, bin.id);
  const older = isSame(kept.touch, touch) ? (briefIn(bin, kept) === null ? kept.older : null) : olderFrom(bin, kept);
  return older === null || older.shared !== touch.shared ? null : { brief: older.brief, today: day };
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

async function told(shelf: Shelf, bin: BinRow, kept: Kept, outlook: Promise<Outlook>): Promise<Outlooked> {
  const { today, planned } = kept;
  const whole = await outlook;
  if (kept.done !== null && shelf.kept.get(bin.id) === kept) use(shelf, bin, kept, kept.done);
  return { outlook: whole, today, planned };
}

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
  for (const bin of listBins(call.store)) if (bin.state !== 'retired') await briefFor(call, bin);
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

function shelfFor(store: Store): Shelf {
  const known = shelfOf.get(store) ?? { kept: new Map<string, Kept>(), budget: budgetOf() };
  shelfOf.set(store, known);
  return known;
}

const climateOf = ({ minC, maxC }: SiteRow) => ({ minC, maxC });
/** A hash, as the text of stuff and of years of air would outweigh what it is the key of. */
const keyOf = (parts: readonly unknown[]): string => createHash('sha256').update(JSON.stringify(parts)).digest('base64');
