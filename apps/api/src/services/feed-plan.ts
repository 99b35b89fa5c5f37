/** Feedings that the forecast counts on: those that a shift is to do, or else what the bin is usually given. */
import { type BinEvent, kgFromGrams, type Portion } from '@middenry/domain';
import type { EntryRow } from '../db/repositories/entry-types.ts';
import type { IntakeFeedingRow } from '../db/repositories/outlook.ts';
import { addDays, daysBetween } from './local-time.ts';

/** As far as the forecast goes. */
export const PLAN_DAYS = 14;
/** A habit is what was done at least so often in so many days. */
const LEAST_TIMES = 3;
const HABIT_DAYS = 42;
/** What is given less often than this is no habit that a forecast of a fortnight could count on. */
const LONGEST_GAP_DAYS = 14;
const LAST_FEW = 5;

export interface PlannedFeeding {
  readonly on: string;
  readonly zone: number;
  readonly massKg: number;
  readonly from: 'shift' | 'habit';
  readonly events: readonly BinEvent[];
}

export interface FeedPlanScene {
  readonly bin: { readonly startedOn: string; readonly zones: number; readonly state: string };
  /** All that is noted and not undone, oldest first. */
  readonly entries: readonly EntryRow[];
  /** Dates of shifts to come that are to feed it. */
  readonly shiftDays: readonly string[];
  /** What accepted plans of scraps put in on some of these days. */
  readonly intake: readonly IntakeFeedingRow[];
  readonly today: string;
  /** What the model is told of an entry. */
  readonly eventsOf: (entry: EntryRow) => readonly BinEvent[];
  /** What the model is told of so much of a material. */
  readonly portionOf: (materialId: string, massKg: number) => Portion;
}

type Feeding = Extract<EntryRow, { kind: 'feeding' }>;

export function plannedFeedings(scene: FeedPlanScene): readonly PlannedFeeding[] {
  const { bin, entries, shiftDays, today } = scene;
  const feedings = entries.filter((entry): entry is Feeding => entry.kind === 'feeding' && entry.localDate <= today);
  const days = [...new Set(feedings.map(({ localDate }) => localDate))].sort();
  const usual = usualVisit(feedings, days);
  if (bin.state !== 'active') return [];
  const from = shiftDays.length > 0 ? 'shift' : 'habit';
  const turns = zonesInTurn(feedings, bin.zones);
  let turn = 0;
  return (from === 'shift' ? shiftDays : habitDays(days, today)).flatMap((on) => {
    const parts = scene.intake.filter((row) => row.on === on);
    if (parts.length > 0) return intakeOn(scene, on, parts);
    return usual.map((feeding) => {
      const zone = turns[turn++ % turns.length]!;
      const day = daysBetween(bin.startedOn, on);
      const events = scene.eventsOf(feeding).map((event) => movedTo(event, day, zone));
      return { on, zone, massKg: massKgOf(feeding), from, events };
    });
  });
}

/** The amounts on the card of the shift, shared among the zones of the plan as the plan itself was tried out. */
function intakeOn({ bin, portionOf }: FeedPlanScene, on: string, parts: readonly IntakeFeedingRow[]): PlannedFeeding[] {
  const named = JSON.parse(parts.find(({ zones }) => zones !== null)?.zones ?? '[]') as number[];
  const zones = named.length > 0 ? named : [1];
  const day = daysBetween(bin.startedOn, on);
  const share = (grams: number): number => kgFromGrams(grams) / zones.length;
  const portions = (wanted: IntakeFeedingRow['part']): Portion[] =>
    parts.filter(({ part }) => part === wanted).map(({ materialId, grams }) => portionOf(materialId, share(grams)));
  const massKg = share(parts.reduce((sum, { part, grams }) => sum + (part === 'scraps' ? grams : 0), 0));
  return zones.map((zone) => {
    const bedding: BinEvent[] = portions('bedding').map((portion) => ({ day, type: 'bedding', zone, mixedIn: true, items: [portion] }));
    return { on, zone, massKg, from: 'shift', events: [{ day, type: 'feeding', zone, items: portions('scraps') }, ...bedding] };
  });
}

const massKgOf = (feeding: Feeding): number => kgFromGrams(feeding.items.reduce((sum, { grams }) => sum + grams, 0));

/** What went in on the middle one, by weight, of the last few days on which it was fed. */
function usualVisit(feedings: readonly Feeding[], days: readonly string[]): readonly Feeding[] {
  const visits = days.slice(-LAST_FEW).map((on) => feedings.filter(({ localDate }) => localDate === on));
  const massOf = (visit: readonly Feeding[]): number => visit.reduce((sum, feeding) => sum + massKgOf(feeding), 0);
  return visits.sort((a, b) => massOf(a) - massOf(b))[Math.floor(visits.length / 2)] ?? [];
}

/** The next days by the usual gap. A bin that was passed over twice is no longer fed by habit. */
function habitDays(fedDays: readonly string[], today: string): readonly string[] {
  const fed = fedDays.filter((on) => daysBetween(on, today) <= HABIT_DAYS);
  const last = fed.at(-1);
  if (fed.length < LEAST_TIMES || last === undefined) return [];
  const gaps = fed
    .slice(1)
    .map((on, index) => daysBetween(fed[index]!, on))
    .sort((a, b) => a - b);
  const gap = gaps[Math.floor(gaps.length / 2)]!;
  if (gap > LONGEST_GAP_DAYS || daysBetween(last, today) > 2 * gap) return [];
  const days: string[] = [];
  const first = Math.max(gap, daysBetween(last, today) + 1);
  for (let ahead = first - daysBetween(last, today); ahead <= PLAN_DAYS; ahead += gap) days.push(addDays(today, ahead));
  return days;
}

/** Longest since fed first. */
function zonesInTurn(feedings: readonly Feeding[], zones: number): readonly number[] {
  const lastFed = (zone: number): string => feedings.findLast((feeding) => feeding.zone === zone)?.localDate ?? '';
  return Array.from({ length: zones }, (_, index) => index + 1).sort((a, b) =>
    lastFed(a) < lastFed(b) ? -1 : lastFed(a) > lastFed(b) ? 1 : a - b,
  );
}

/** A feeding to come is no entry yet. */
function movedTo(event: BinEvent, day: number, zone: number): BinEvent {
  const { entryId: _ofTheOther, ...rest } = event;
  return { ...rest, day, ...('zone' in rest ? { zone } : {}) } as BinEvent;
}
