import { parameter } from '../bin/parameter.ts';
import type { LogFacts } from '../signals/log-facts.ts';
import type { SignalId } from '../signals/types.ts';
import type { DutyKind, DutyWhy, DutyWindow, HoldReason } from './types.ts';

export const DUTY_PARAMETERS = {
  feedFromFoodDays: parameter(7, 'd of appetite', 'common practice', 'common-practice'),
  feedDueFoodDays: parameter(2, 'd of appetite', 'estimate', 'common-practice'),
  feedOverdueAfter: parameter(7, 'd', 'estimate', 'common-practice'),
  checkFromFrac: parameter(0.6, 'share of the interval', 'estimate', 'common-practice'),
  checkOverdueFrac: parameter(2, 'times the interval', 'estimate', 'common-practice'),
  loosenFrom: parameter(7, 'd', 'common practice', 'common-practice'),
  loosenDue: parameter(14, 'd', 'estimate', 'common-practice'),
  loosenOverdue: parameter(28, 'd', 'estimate', 'common-practice'),
  inoculateFrom: parameter(30, 'd', 'common practice', 'common-practice'),
  inoculateDue: parameter(45, 'd', 'estimate', 'common-practice'),
  inoculateOverdue: parameter(60, 'd', 'common practice', 'common-practice'),
  harvestBefore: parameter(7, 'd', 'estimate', 'common-practice'),
  harvestOverdueAfter: parameter(21, 'd', 'common practice', 'common-practice'),
  beddingOverdueAfter: parameter(14, 'd', 'estimate', 'common-practice'),
  restDays: parameter(7, 'd', 'common practice', 'common-practice'),
  waterOverdueAfter: parameter(3, 'd', 'estimate', 'science-table-4'),
} as const;
const P = DUTY_PARAMETERS;

export interface DutyScene {
  readonly today: number;
  readonly log: LogFacts;
  readonly checkIntervalDays: number;
  readonly resting: boolean;
  /** Why the bin should not be fed today, or null. */
  readonly hold: HoldReason | null;
  /** Food in hand [days of appetite] on today and every day of the forecast. */
  readonly foodInHandDays: readonly number[];
  /** First day of the stretch in which a signal is likely to hold now, or else the first day ahead; null within the forecast. */
  readonly sinceDay: (id: SignalId) => number | null;
}

/**
 * What falls due at a bin: windows from the model where it can say, from plain intervals where it can not.
 *
 * @shape scene -> windows[n]
 * @returns Windows in scenario days, from <= due <= overdue, the soonest overdue first
 * @source common-practice
 */
export function dutiesOf(scene: DutyScene): readonly DutyWindow[] {
  const windows = [checkWindow(scene), harvestWindow(scene), waterWindow(scene)];
  const rest = restWindow(scene);
  if (!scene.resting) windows.push(rest, feedWindow(scene, rest), loosenWindow(scene), inoculateWindow(scene), beddingWindow(scene));
  return windows.filter((window) => window !== null).sort((a, b) => a.overdueDay - b.overdueDay || a.dueDay - b.dueDay);
}

const duty = (kind: DutyKind, fromDay: number, dueDay: number, overdueDay: number, why: DutyWhy): DutyWindow => ({
  kind,
  fromDay,
  dueDay,
  overdueDay,
  why,
});

/** What a bin is left alone for; of the other reasons to hold none asks for rest. */
const RESTS_FOR: Readonly<Partial<Record<HoldReason, DutyWhy>>> = {
  'food-in-hand': 'more-than-eaten',
  airless: 'short-of-air',
  smell: 'short-of-air',
  sour: 'bed-sour',
  hot: 'bed-hot',
};

/** No food from today until the worms have caught up, or for a week where it is not for the food itself. */
function restWindow({ today, hold, foodInHandDays }: DutyScene): DutyWindow | null {
  const why = hold && RESTS_FOR[hold];
  if (!why) return null;
  const eaten = foodInHandDays.findIndex((days) => days <= P.feedFromFoodDays.value);
  const forFood = eaten === -1 ? foodInHandDays.length - 1 : Math.max(1, eaten);
  const untilDay = today + (hold === 'food-in-hand' ? forFood : P.restDays.value);
  return duty('rest', today, untilDay, untilDay, why);
}

/**
 * The days when food in hand falls to a week's and to almost nothing; beyond the forecast nothing is due yet. A rest puts it off,
 * but not where the food is gone already: what is past due stays so until somebody has looked.
 */
function feedWindow({ today, log, foodInHandDays }: DutyScene, rest: DutyWindow | null): DutyWindow | null {
  const firstBelow = (limit: number): number => foodInHandDays.findIndex((days) => days <= limit);
  const from = firstBelow(P.feedFromFoodDays.value);
  if (from === -1) return null;
  const due = firstBelow(P.feedDueFoodDays.value);
  const restUntilDay = due === 0 ? 0 : (rest?.dueDay ?? 0);
  const fromDay = Math.max(today + from, (log.lastFedDay ?? -1) + 1, restUntilDay);
  const lastDay = today + foodInHandDays.length - 1;
  const dueDay = Math.max(fromDay, due === -1 ? lastDay : today + due);
  // When the food ran out before today, the day it was due lies back: by the last feeding and its week.
  const passed = due === 0 ? Math.min(today, Math.max(fromDay, (log.lastFedDay ?? today) + P.feedOverdueAfter.value)) : dueDay;
  return duty('feed', Math.min(fromDay, passed), passed, passed + P.feedOverdueAfter.value, 'food-nearly-gone');
}

function checkWindow({ log, checkIntervalDays }: DutyScene): DutyWindow {
  const last = log.lastCheckDay ?? 0;
  const after = (share: number): number => last + Math.max(1, Math.round(checkIntervalDays * share));
  return duty('check', after(P.checkFromFrac.value), after(1), after(P.checkOverdueFrac.value), 'time-to-look');
}

const loosenWindow = ({ today, log }: DutyScene): DutyWindow =>
  careWindow('loosen', today, log.lastLoosenedDay, [P.loosenFrom.value, P.loosenDue.value, P.loosenOverdue.value], 'packs-down');

const inoculateWindow = ({ today, log }: DutyScene): DutyWindow =>
  careWindow(
    'inoculate',
    today,
    log.lastInoculatedDay,
    [P.inoculateFrom.value, P.inoculateDue.value, P.inoculateOverdue.value],
    'keeps-microbes-varied',
  );

/** Counted from the last time; where it was never written down it falls due, but nobody can say that it is late. */
function careWindow(
  kind: DutyKind,
  today: number,
  last: number | null,
  [from, due, overdue]: readonly [number, number, number],
  why: DutyWhy,
): DutyWindow {
  const start = last ?? Math.max(0, today - due);
  return duty(kind, start + from, start + due, start + overdue, why);
}

function harvestWindow({ today, sinceDay }: DutyScene): DutyWindow | null {
  const first = sinceDay('harvest-due');
  if (first === null) return null;
  return duty(
    'harvest',
    Math.max(0, Math.min(today, first - P.harvestBefore.value)),
    first,
    first + P.harvestOverdueAfter.value,
    'castings-ready',
  );
}

function beddingWindow({ sinceDay }: DutyScene): DutyWindow | null {
  const first = sinceDay('bedding-low');
  return first === null ? null : duty('bedding', first, first, first + P.beddingOverdueAfter.value, 'bedding-eaten');
}

function waterWindow({ sinceDay }: DutyScene): DutyWindow | null {
  const first = sinceDay('dry');
  return first === null ? null : duty('water', first, first, first + P.waterOverdueAfter.value, 'drying-out');
}
