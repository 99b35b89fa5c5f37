/** How warm it is around a bin: the site's months, what somebody read, and a heated room for as long as it stands in one. */
import type { BinEvent, Climate, Exposure } from '@middenry/domain';
import { dayOfYear, daysBetween } from './local-time.ts';

/** A heated room; and outdoors until the site gives its own months. */
const INDOOR_TEMP_C = { value: 18, evidence: 'estimate', source: 'none: our estimate, a heated room' } as const;
const OUTDOOR_TEMP_C = { value: 14, evidence: 'estimate', source: 'none: our estimate, until the site gives its own months' } as const;
/** As far ahead as anybody asks. */
const FORECAST_DAYS = 28;

export interface ClimateScene {
  readonly bin: { readonly startedOn: string; readonly exposure: Exposure };
  readonly site: { readonly minC: readonly number[] | null; readonly maxC: readonly number[] | null };
  /** Mean air of days that somebody read, by date. */
  readonly airReadings: readonly (readonly [on: string, meanC: number])[];
  /** Day that is today. */
  readonly days: number;
  readonly events: readonly BinEvent[];
}

export function climateOf(scene: ClimateScene): Climate {
  const { bin, site, airReadings, days } = scene;
  const isIndoors = indoorDays(scene);
  const always = Array.from({ length: days + FORECAST_DAYS + 1 }, (_, day) => day);
  if (always.every(isIndoors)) return { tempC: INDOOR_TEMP_C.value };
  const read = airReadings.map(([on, meanC]) => [daysBetween(bin.startedOn, on), meanC] as const);
  const readings = [
    ...always.filter(isIndoors).map((day) => [day, INDOOR_TEMP_C.value] as const),
    // What was read is the air outdoors.
    ...read.filter(([day]) => day >= 0 && !isIndoors(day)),
  ];
  return { ...outdoors(bin.startedOn, site), ...(readings.length > 0 ? { readings } : {}) };
}

function outdoors(startedOn: string, { minC, maxC }: ClimateScene['site']): Climate {
  if (minC === null || maxC === null) return { tempC: OUTDOOR_TEMP_C.value };
  return { monthly: { minC, maxC, firstDayOfYear: dayOfYear(startedOn) } };
}

/** Where it stood on a day: as it was started, then as it was last moved. */
function indoorDays({ bin, events }: ClimateScene): (day: number) => boolean {
  const moves = events.flatMap((event) => (event.type === 'move' && event.exposure ? [{ day: event.day, exposure: event.exposure }] : []));
  return (day) => (moves.findLast((move) => move.day <= day)?.exposure ?? bin.exposure) === 'indoors';
}
