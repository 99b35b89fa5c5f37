import { parameter } from '../bin/parameter.ts';
import type { BinEvent } from '../bin/scenario.ts';
import { courseOf, daysAt, type Keeping, shareHolding } from './assess.ts';
import type { MembersDay } from './member-day.ts';
import { SIGNALS } from './registry.ts';
import { REMEDIES, type RemedyPlan, type RemedyScene } from './remedy-registry.ts';
import type { Remedy, RemedyId, SignalOutlook } from './types.ts';

/** A remedy is done tomorrow; what is asked is whether the trouble is there from the day after to the end of the week. */
export const REMEDY_JUDGED = {
  fromDays: parameter(2, 'd from today', 'estimate', 'common-practice'),
  toDays: parameter(7, 'd from today', 'estimate', 'common-practice'),
} as const;

/** Share of troubles seen, against the model's word, that are still there after the usual care. */
export const SEEN_LEFT = parameter(0.3, 'share', 'estimate', 'common-practice');

const SHOWN = 3;
/** A change smaller than this is no help. */
const NOTICEABLE_SHARE = 0.01;

/** What trying a remedy needs: the days up to today, and the days ahead under a changed plan. */
export interface Trial extends Keeping {
  readonly scene: Omit<RemedyScene, 'zone'>;
  readonly past: readonly MembersDay[];
  readonly ahead: readonly MembersDay[];
  readonly log: readonly BinEvent[];
  /** The days after today when these events happen. */
  readonly tryDays: (events: readonly BinEvent[], days: number) => readonly MembersDay[];
}

interface Judged {
  readonly probability: number;
  /** Mean share of members and days, so that a remedy that shortens trouble still counts. */
  readonly burden: number;
}

/**
 * The remedies that help most against one signal, best first.
 *
 * @shape signal, trial -> remedies[<= 3]
 * @returns Probability that the trouble is there in days 2 to 7, without and with the remedy
 * @source none: our rule; each candidate runs through the same forecast
 */
export function remediesFor(signal: Pick<SignalOutlook, 'id' | 'zone'>, trial: Trial): readonly Remedy[] {
  const definition = SIGNALS[signal.id];
  const scene: RemedyScene = { ...trial.scene, zone: signal.zone };
  const before = judge(signal, trial, trial.ahead, trial.scene.planned);
  const least = leastAfter(signal, trial);
  const tried = definition.remedies.flatMap((id) => {
    const plan = REMEDIES[id].plan(scene);
    return plan ? [{ id, plan, after: judgePlan(signal, trial, plan) }] : [];
  });
  const helping = tried.filter(({ after }) => before.burden - after.burden >= NOTICEABLE_SHARE);
  // What passes by itself needs nothing; what nothing helps still gets the first thing to try, with its honest figures.
  const fallback = before.probability > 0 ? tried.slice(0, 1) : [];
  const kept = helping.length > 0 ? helping : fallback;
  return kept
    .sort((a, b) => a.after.probability - b.after.probability || a.after.burden - b.after.burden || effort(a.id) - effort(b.id))
    .slice(0, SHOWN)
    .map(({ id, plan, after }) => ({
      id,
      zone: plan.zone,
      massKg: plan.massKg,
      effortMinutes: effort(id),
      probabilityBefore: before.probability,
      probabilityAfter: Math.min(Math.max(after.probability, least), before.probability),
      cautions: REMEDIES[id].cautions,
    }));
}

const effort = (id: RemedyId): number => REMEDIES[id].effortMinutes.value;

function judgePlan(signal: Pick<SignalOutlook, 'id'>, trial: Trial, plan: RemedyPlan): Judged {
  const events = [...plan.planned, ...plan.events].sort((a, b) => a.day - b.day);
  return judge(signal, trial, trial.tryDays(events, REMEDY_JUDGED.toDays.value), events);
}

/** Of a thing seen that the model does not find the forecast can say nothing, so care is never promised to end it for sure. */
function leastAfter(signal: Pick<SignalOutlook, 'id'>, trial: Trial): number {
  const { condition, seen } = SIGNALS[signal.id];
  const at = daysAt(trial, trial.past.slice(-1), trial.log)[0]?.[0];
  return at && seen(at).length > 0 && !condition(at, true) ? SEEN_LEFT.value : 0;
}

function judge(signal: Pick<SignalOutlook, 'id'>, trial: Trial, ahead: readonly MembersDay[], events: readonly BinEvent[]): Judged {
  const days = [...trial.past, ...ahead];
  const course = courseOf(SIGNALS[signal.id], daysAt(trial, days, [...trial.log, ...events]));
  const { today } = trial.scene;
  const [from, to] = [today + REMEDY_JUDGED.fromDays.value, today + REMEDY_JUDGED.toDays.value];
  let burden = 0;
  for (let day = from; day <= to; day++) burden += shareHolding(course, days, day, day);
  return { probability: shareHolding(course, days, from, to), burden: burden / (to - from + 1) };
}
