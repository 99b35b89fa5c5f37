import type { Climate, Exposure } from './scenario.ts';
import { TEMPERATURE_PARAMETERS as P } from './temperature.ts';

/** The air on one day, or the bed itself where the scenario prescribes it. */
export interface DayWeather {
  readonly airTempC: number;
  readonly swingC: number;
  readonly bedTempC: number | null;
}

const DAYS_OF_YEAR = 365;
const MONTHS = 12;

/** Straight between the middles of the months, round the year. */
function byMonth(values: readonly number[], dayOfYear: number): number {
  const at = (((dayOfYear - 1) / DAYS_OF_YEAR) * MONTHS - 0.5 + MONTHS) % MONTHS;
  const month = Math.floor(at);
  const share = at - month;
  return values[month]! * (1 - share) + values[(month + 1) % MONTHS]! * share;
}

export function weatherOf(climate: Climate, day: number): DayWeather {
  const base = baseWeather(climate, day);
  const reading = climate.readings?.findLast(([readDay]) => readDay === day);
  return reading && base.bedTempC === null ? { ...base, airTempC: reading[1] } : base;
}

function baseWeather(climate: Climate, day: number): DayWeather {
  const swingC = P.dailySwingIndoorsC.value;
  if (climate.bedTempC !== undefined) return { airTempC: climate.bedTempC, swingC: 0, bedTempC: climate.bedTempC };
  if (climate.dailyTempC !== undefined && climate.dailyTempC.length > 0)
    return { airTempC: climate.dailyTempC[Math.min(day, climate.dailyTempC.length - 1)]!, swingC, bedTempC: null };
  if (climate.monthly !== undefined) {
    const dayOfYear = climate.monthly.firstDayOfYear + day;
    const low = byMonth(climate.monthly.minC, dayOfYear);
    const high = byMonth(climate.monthly.maxC, dayOfYear);
    return { airTempC: (low + high) / 2, swingC: high - low, bedTempC: null };
  }
  // A laboratory held at one temperature does not swing.
  return { airTempC: climate.tempC ?? 20, swingC: 0, bedTempC: null };
}

export function sunGainC(exposure: Exposure): number {
  switch (exposure) {
    case 'indoors':
    case 'shade':
      return 0;
    case 'part-sun':
      return P.sunGainPartC.value;
    case 'full-sun':
      return P.sunGainFullC.value;
    default:
      return exposure satisfies never;
  }
}
