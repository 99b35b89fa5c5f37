/** Feedings that the forecast counts on: those that a shift is to do, or else what the bin is usually given. */
import { type BinEvent, kgFromGrams } from '@middenry/domain';
import type { EntryRow } from '../db/repositories/entry-types.ts';
import { addDays, daysBetween } from './local-time.ts';

/** As far as the forecast goes. */
export const PLAN_DAYS = 14;
/** A habit is what was done at least so often in so many days. */
const LEAST_TIMES = 3;
const HABIT_DAYS = 42;
/** What is given less often than this is no habit that a forecast of a fortnight could count on. */
const LONGEST_GAP_DAYS = 14;
/** The usual feeding is the middle one of the last few. */
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
  readonly today: string;
  /** What the model is told of an entry. */
  readonly eventsOf: (entry: EntryRow) => readonly BinEvent[];
}

type Feeding = Extract<EntryRow, { kind: 'feeding' }>;

export function plannedFeedings(scene: FeedPlanScene): readonly PlannedFeeding[] {
  const { bin, entries, shiftDays, today } = scene;
  const feedings = entries.filter((entry): entry is Feeding => entry.kind === 'feeding' && entry.localDate <= today);
  const usual = usualOf(feedings);
  if (usual === null || bin.state !== 'active') return [];
  const from = shiftDays.length > 0 ? 'shift' : 'habit';
  const days = from === 'shift' ? shiftDays : habitDays(feedings, today);
  const turns = zonesInTurn(feedings, bin.zones);
  const template = scene.eventsOf(usual);
  return days.map((on, index) => {
    const zone = turns[index % turns.length]!;
    const day = daysBetween(bin.startedOn, on);
    return { on, zone, massKg: massKgOf(usual), from, events: template.map((event) => movedTo(event, day, zone)) };
  });
}

const massKgOf = (feeding: Feeding): number => kgFromGrams(feeding.items.reduce((sum, { grams }) => sum + grams, 0));

function usualOf(feedings: readonly Feeding[]): Feeding | null {
  const last = [...feedings.slice(-LAST_FEW)].sort((a, b) => massKgOf(a) - massKgOf(b));
  return last[Math.floor(last.length / 2)] ?? null;
}

/** The next days by the usual gap. A bin that was passed over twice is no longer fed by habit. */
function habitDays(feedings: readonly Feeding[], today: string): readonly string[] {
  const fed = [...new Set(feedings.map(({ localDate }) => localDate))].filter((on) => daysBetween(on, today) <= HABIT_DAYS);
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
