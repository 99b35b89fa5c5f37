/** A bin's history as the model takes it: day 0 is the day the bin was started. */
import type { BinEvent, OutlookSettings, Scenario } from '@middenry/domain';
import { kgFromGrams } from '@middenry/domain';
import type { BinRow } from '../db/repositories/bin.ts';
import type { CareDetail, CheckDetail, EntryRow, FeedingDetail, WormsDetail } from '../db/repositories/entry-types.ts';
import type { IntakeFeedingRow } from '../db/repositories/outlook.ts';
import type { SiteRow } from '../db/repositories/site.ts';
import { climateOf } from './climate.ts';
import { type PlannedFeeding, plannedFeedings } from './feed-plan.ts';
import { daysBetween } from './local-time.ts';
import { type OwnMaterials, portionOf } from './materials.ts';

/** One set of worms, one set of unknowns for each bin: the seed says which, and never changes. */
const SEED_DIGITS = 8;

export interface BinHistory {
  readonly bin: BinRow;
  readonly site: SiteRow;
  readonly entries: readonly EntryRow[];
  readonly own: OwnMaterials;
  /** Mean air of days that somebody read, by date. */
  readonly airReadings: readonly (readonly [on: string, meanC: number])[];
  /** Today at the site. */
  readonly today: string;
  readonly members: number;
  /** Dates of shifts to come that are to feed it. */
  readonly feedingShiftDays: readonly string[];
  /** What accepted plans of scraps put in on some of these days. */
  readonly intake: readonly IntakeFeedingRow[];
}

export const settingsOf = (bin: BinRow, asked: { historyDays: number; planned: readonly PlannedFeeding[] }): OutlookSettings => ({
  checkIntervalDays: bin.checkIntervalDays,
  resting: bin.state === 'resting',
  historyDays: asked.historyDays,
  plan: asked.planned.flatMap((feeding) => feeding.events),
});

export interface ScenarioOfBin {
  readonly scenario: Scenario;
  readonly today: number;
  readonly planned: readonly PlannedFeeding[];
}

export function scenarioOf(history: BinHistory): ScenarioOfBin {
  const { bin, entries, own, today, members } = history;
  const day = Math.max(0, daysBetween(bin.startedOn, today));
  const events = entries
    .flatMap((entry) => eventsOf(entry, { own, startedOn: bin.startedOn }))
    .filter((event) => event.day >= 0 && event.day <= day);
  const planned = plannedFeedings({
    ...{ bin, entries, shiftDays: history.feedingShiftDays, intake: history.intake, today },
    eventsOf: (entry) => eventsOf(entry, { own, startedOn: bin.startedOn }),
    portionOf: (id, massKg) => portionOf(own, id, { massKg, how: 'weighed' }),
  });
  const scenario: Scenario = {
    schema: 'middenry-scenario/1',
    days: day,
    members,
    seed: Number.parseInt(bin.id.replaceAll('-', '').slice(-SEED_DIGITS), 16),
    bin: {
      kind: bin.kind,
      areaM2: bin.areaM2,
      depthM: bin.depthM,
      zones: bin.zones,
      openBase: bin.openBase,
      ageDays: 0,
      exposure: bin.exposure,
      worms: { massKg: kgFromGrams(bin.startWormsG) },
      bed: bin.bed.map(({ materialId, grams }) => portionOf(own, materialId, { massKg: kgFromGrams(grams) })),
      bedWaterKg: kgFromGrams(bin.startBedWaterG),
    },
    climate: climateOf({ ...history, days: day, events }),
    events,
  };
  return { scenario, today: day, planned };
}

interface EventParts {
  readonly own: OwnMaterials;
  readonly startedOn: string;
}

/** What the model is told of one entry. */
export function eventsOf(entry: EntryRow, parts: EventParts): BinEvent[] {
  const base = { day: daysBetween(parts.startedOn, entry.localDate), entryId: entry.id };
  switch (entry.kind) {
    case 'feeding':
      return feedingEvents(base, entry, parts.own);
    case 'check':
      return [{ ...base, type: 'check', ...checkSeen(entry) }];
    case 'harvest':
      return [{ ...base, type: 'harvest', massKg: kgFromGrams(entry.grams), ...(entry.how === 'weighed' ? {} : { how: entry.how }) }];
    case 'care':
      return careEvents(base, entry, parts.own);
    case 'worms':
      return [wormsEvent(base, entry)];
    case 'note':
      return [];
    default:
      return entry satisfies never;
  }
}

function feedingEvents(base: Base, feeding: FeedingDetail, own: OwnMaterials): BinEvent[] {
  const items = feeding.items.map(({ materialId, grams, how, preparation }) =>
    portionOf(own, materialId, { massKg: kgFromGrams(grams), how, preparation }),
  );
  const fed = {
    ...base,
    type: 'feeding',
    zone: feeding.zone,
    items,
    ...(feeding.waterG > 0 ? { waterKg: kgFromGrams(feeding.waterG) } : {}),
  } as const;
  if (feeding.beddingG === 0) return [fed];
  const beddingKg = kgFromGrams(feeding.beddingG);
  const { beddingMaterialId: id } = feeding;
  if (id === null) return [{ ...fed, beddingKg }];
  // The model's feeding names bedding by a key of the catalogue; own bedding goes in beside it.
  if (own.has(id))
    return [fed, { ...base, type: 'bedding', zone: feeding.zone, mixedIn: true, items: [portionOf(own, id, { massKg: beddingKg })] }];
  return [{ ...fed, beddingKg, beddingMaterial: id }];
}

type Base = { readonly day: number; readonly entryId: string };

function careEvents(base: Base, care: CareDetail, own: OwnMaterials): BinEvent[] {
  const where = care.zone === null ? {} : { zone: care.zone };
  const mass = care.grams === null ? {} : { massKg: kgFromGrams(care.grams) };
  switch (care.action) {
    case 'loosened':
      return [{ ...base, type: 'loosen', ...where }];
    case 'watered':
      return [{ ...base, type: 'water', massKg: kgFromGrams(care.grams ?? 0) }];
    case 'bedding':
      return [
        {
          ...base,
          type: 'bedding',
          ...where,
          items: [portionOf(own, care.materialId ?? USUAL_BEDDING, { massKg: kgFromGrams(care.grams ?? 0) })],
        },
      ];
    case 'inoculated':
      return [{ ...base, type: 'inoculate', ...mass }];
    case 'drained':
      return [{ ...base, type: 'drain', ...mass }];
    case 'moved':
      return [{ ...base, type: 'move', exposure: care.exposure ?? undefined }];
    case 'covered':
      return [{ ...base, type: 'cover', ...where }];
    case 'taken-out':
      return [{ ...base, type: 'remove', foodFrac: care.share ?? 1, ...where }];
    default:
      // What a bin is from then on; nothing happens in it.
      return [];
  }
}

const USUAL_BEDDING = 'cardboard_corrugated';

/** Half of a bin that is split off takes half of its food and cocoons along. */
function wormsEvent(base: Base, worms: WormsDetail): BinEvent {
  const share = worms.share ?? 0;
  if (worms.direction === 'added') return { ...base, type: 'add-worms', massKg: kgFromGrams(worms.grams ?? 0) };
  if (worms.direction === 'given-away') return { ...base, type: 'remove', wormsFrac: share };
  return { ...base, type: 'remove', wormsFrac: share, cocoonsFrac: share, foodFrac: share };
}

/** Only what was looked at: a blank is not an observation. */
function checkSeen(check: CheckDetail) {
  const { squeeze, smell, bedTempC, worms, ph, leftover, visitors } = check;
  return {
    ...(leftover.length > 0 ? { leftover: Object.fromEntries(leftover.map(({ zone, left }) => [String(zone), left])) } : {}),
    ...(squeeze === null ? {} : { squeeze }),
    ...(smell === null ? {} : { smell }),
    ...(bedTempC === null ? {} : { tempC: bedTempC }),
    ...(worms === null ? {} : { worms }),
    ...(ph === null ? {} : { ph }),
    ...(visitors.length > 0 ? { visitors } : {}),
  };
}
