import { parameter } from '../bin/parameter.ts';
import type { BinEvent } from '../bin/scenario.ts';
import { courseOf, daysAt, type Keeping, shareHolding } from './assess.ts';
import type { MembersDay } from './member-day.ts';
import { SIGNALS } from './registry.ts';
import { REMEDIES, type RemedyPlan, type RemedyScene } from './remedy-registry.ts';
import type { Remedy, RemedyStep, SignalOutlook } from './types.ts';

/** A remedy is done tomorrow; what is asked is whether the trouble is there from the day after to the end of the week. */
export const REMEDY_JUDGED = {
  fromDays: parameter(2, 'd from today', 'estimate', 'common-practice'),
  toDays: parameter(7, 'd from today', 'estimate', 'common-practice'),
} as const;

/** Share of troubles seen, against the model's word, that are still there after the usual care. */
export const SEEN_LEFT = parameter(0.3, 'share', 'estimate', 'common-practice');

const SHOWN = 3;
/** Single remedies that go on from the trial on few members to all, and those of which pairs are made. */
const CONFIRMED = 3;
const PAIRED = 4;
/** A change smaller than this is no help. */
const NOTICEABLE_SHARE = 0.01;
/** A pair is twice the work: it is shown where it leaves clearly less trouble than either alone. */
const PAIR_GAIN_SHARE = 0.1;

/** The members that remedies are tried on: their days behind, ahead as planned, and after today under another plan. */
export interface TrialMembers {
  readonly past: readonly MembersDay[];
  readonly ahead: readonly MembersDay[];
  readonly tryDays: (events: readonly BinEvent[], days: number) => readonly MembersDay[];
}

/** What trying remedies needs: few members to find the best, all to say what they do. */
export interface Trial extends Keeping {
  readonly scene: Omit<RemedyScene, 'zone'>;
  readonly log: readonly BinEvent[];
  readonly few: TrialMembers;
  readonly all: TrialMembers;
}

interface Judged {
  readonly probability: number;
  /** Mean share of members and days, so that a remedy that shortens trouble still counts. */
  readonly burden: number;
}

interface Tried {
  readonly steps: readonly RemedyStep[];
  readonly plan: Plan;
  readonly after: Judged;
}
type Plan = Pick<RemedyPlan, 'events' | 'planned'>;

/**
 * The remedies that help most against one signal, best first, a pair among them where two together help clearly more.
 *
 * @shape signal, trial -> remedies[<= 3]
 * @returns Probability that the trouble is there in days 2 to 7, without and with the remedy, by all members
 * @source none: our rule; each candidate runs through the same forecast, on few members first
 */
export function remediesFor(signal: Pick<SignalOutlook, 'id' | 'zone'>, trial: Trial): readonly Remedy[] {
  const scene: RemedyScene = { ...trial.scene, zone: signal.zone };
  const judgeOn = judges(signal, trial);
  const before = judgeOn(trial.all, trial.all.ahead, trial.scene.planned);
  const tryOn = (members: TrialMembers, steps: readonly RemedyStep[], plan: Plan): Tried => {
    const events = [...plan.planned, ...plan.events].sort((a, b) => a.day - b.day);
    return { steps, plan, after: judgeOn(members, members.tryDays(events, REMEDY_JUDGED.toDays.value), events) };
  };
  const onAll = ({ steps, plan, after }: Tried): Tried =>
    trial.few === trial.all ? { steps, plan, after } : tryOn(trial.all, steps, plan);
  const single = SIGNALS[signal.id].remedies.flatMap((id) => {
    const plan = REMEDIES[id].plan(scene);
    return plan ? [tryOn(trial.few, [{ id, zone: plan.zone, massKg: plan.massKg }], plan)] : [];
  });
  const first = single.slice(0, 1);
  const ranked = [...single].sort(byHelp);
  const confirmed = ranked.slice(0, CONFIRMED).map(onAll).sort(byHelp);
  const helping = confirmed.filter(({ after }) => before.burden - after.burden >= NOTICEABLE_SHARE);
  // Where one thing nearly ends the trouble, no pair could do clearly better.
  const worthPairing = helping.length > 1 && (helping[0]?.after.probability ?? 0) >= PAIR_GAIN_SHARE;
  const pairs = !worthPairing ? [] : pairsOf(ranked.slice(0, PAIRED), scene).map(({ steps, plan }) => tryOn(trial.all, steps, plan));
  const least = leastAfter(signal, trial);
  // What passes by itself needs nothing; what nothing helps still gets the first thing to try, with its honest figures.
  const fallback = before.probability > 0 ? first.map(onAll) : [];
  return (helping.length > 0 ? withPair(helping, pairs) : fallback).map((tried) => shown(tried, before, least));
}

/** The best pair takes its place among the singles, if it leaves clearly less than the best of them. */
function withPair(single: readonly Tried[], pairs: readonly Tried[]): readonly Tried[] {
  const best = [...pairs].sort(byHelp)[0];
  const gain = best && single[0] ? single[0].after.probability - best.after.probability : 0;
  if (!best || gain < PAIR_GAIN_SHARE) return single.slice(0, SHOWN);
  return [...single.slice(0, SHOWN - 1), best].sort(byHelp);
}

/** Every two that can be done together: not two changes of the same feedings, nor food put in and held back. */
function pairsOf(best: readonly Tried[], scene: RemedyScene): readonly Omit<Tried, 'after'>[] {
  return best.flatMap((one, at) =>
    best.slice(at + 1).flatMap((other) => {
      const changes = [one, other].filter(({ plan }) => plan.planned !== scene.planned);
      const feeds = [one, other].some(({ plan }) => plan.events.some(({ type }) => type === 'feeding'));
      if (changes.length + (feeds ? 1 : 0) > 1) return [];
      const plan = { events: [...one.plan.events, ...other.plan.events], planned: changes[0]?.plan.planned ?? scene.planned };
      return [{ steps: [...one.steps, ...other.steps], plan }];
    }),
  );
}

const byHelp = (a: Tried, b: Tried): number =>
  a.after.probability - b.after.probability || a.after.burden - b.after.burden || effortOf(a.steps) - effortOf(b.steps);

const effortOf = (steps: readonly RemedyStep[]): number => steps.reduce((sum, { id }) => sum + REMEDIES[id].effortMinutes.value, 0);

function shown({ steps, after }: Tried, before: Judged, least: number): Remedy {
  const [step, also] = steps as readonly [RemedyStep, RemedyStep?];
  return {
    ...step,
    also: also ?? null,
    effortMinutes: effortOf(steps),
    probabilityBefore: before.probability,
    probabilityAfter: Math.min(Math.max(after.probability, least), before.probability),
    cautions: [...new Set(steps.flatMap(({ id }) => REMEDIES[id].cautions))],
  };
}

/** Of a thing seen that the model does not find the forecast can say nothing, so care is never promised to end it for sure. */
function leastAfter(signal: Pick<SignalOutlook, 'id'>, trial: Trial): number {
  const { condition, seen } = SIGNALS[signal.id];
  const at = daysAt(trial, trial.all.past.slice(-1), trial.log)[0]?.[0];
  return at && seen(at).length > 0 && !condition(at, true) ? SEEN_LEFT.value : 0;
}

type Judge = (members: TrialMembers, ahead: readonly MembersDay[], events: readonly BinEvent[]) => Judged;

/** How much of the trouble is there under a plan. The days behind are the same for all plans and followed once. */
function judges(signal: Pick<SignalOutlook, 'id'>, trial: Trial): Judge {
  const definition = SIGNALS[signal.id];
  const runningOf = new Map<TrialMembers, readonly number[]>();
  const { today } = trial.scene;
  const [from, to] = [today + REMEDY_JUDGED.fromDays.value, today + REMEDY_JUDGED.toDays.value];
  return (members, ahead, events) => {
    const running = runningOf.get(members) ?? courseOf(definition, daysAt(trial, members.past, trial.log)).running;
    runningOf.set(members, running);
    const days = ahead.filter(({ day }) => day <= to);
    const course = courseOf(definition, daysAt(trial, days, [...trial.log, ...events]), running);
    let burden = 0;
    for (let day = from; day <= to; day++) burden += shareHolding(course, days, day, day);
    return { probability: shareHolding(course, days, from, to), burden: burden / (to - from + 1) };
  };
}
