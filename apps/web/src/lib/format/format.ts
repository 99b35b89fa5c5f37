import {
  CM_PER_M,
  DAYS_PER_WEEK,
  GRAMS_PER_KG,
  HOURS_PER_DAY,
  INCHES_PER_FOOT,
  METRES_PER_FOOT,
  MINUTES_PER_HOUR,
  OUNCES_PER_LB,
  percentFromFrac,
} from '@middenry/domain';
import { words } from '../messages/index.ts';
import type { Figures } from '../messages/shape.ts';
import { addDays, dayNumber, daysBetween, localDay, localTime } from './days.ts';
import { dayMaker, numberMaker } from './makers.ts';
import { fromCelsius, KG_PER, LITRES_PER_QUART, type UnitSystem } from './units.ts';

export interface FormatSettings {
  readonly units: UnitSystem;
  readonly locale: string;
  readonly timeZone: string;
  /** Today in the programme's zone, by the server's clock. */
  readonly today: string;
}

/** A space that never breaks between a number and its unit. */
const NB = '\u00a0';
const MOST_FOOD_DAYS = 60;

/** Asked anew each time: the next page may be for a reader of another language. */
const said = (): Figures => words.figures;

export type Format = ReturnType<typeof makeFormat>;

/** Everything a number or a date may look like on a page. Pages know no other way. */
export function makeFormat(settings: FormatSettings) {
  const { units, locale, timeZone, today } = settings;
  const us = units === 'us';
  const number = (value: number, digits = 0) => numberMaker(locale, digits, digits).format(value);
  /** Two significant digits while small, whole numbers above ten: what a bin-side scale can mean. */
  const short = (value: number) => {
    const size = Math.abs(value);
    if (size >= 9.95) return number(value);
    const digits = size >= 0.995 ? 1 : 2;
    return numberMaker(locale, 0, digits).format(value);
  };
  const intl = (options: Intl.DateTimeFormatOptions) => (day: string) =>
    dayMaker(locale, { ...options, timeZone: 'UTC' }).format(new Date(`${day}T12:00:00Z`));
  const weekday = intl({ weekday: 'long' });
  const shortWeekday = intl({ weekday: 'short' });
  const shortMonth = intl({ month: 'short' });
  const dayMonth = intl({ day: 'numeric', month: 'short' });
  const longDate = intl({ weekday: 'long', day: 'numeric', month: 'long' });
  const fullDate = intl({ day: 'numeric', month: 'long', year: 'numeric' });
  const date = (day: string) =>
    day.slice(0, 4) === today.slice(0, 4) ? dayMonth(day) : intl({ day: 'numeric', month: 'short', year: 'numeric' })(day);

  const mass = (kg: number) => {
    if (us) {
      const pounds = kg / KG_PER.lb;
      return pounds < 0.95 && pounds > 0
        ? `${number(pounds * OUNCES_PER_LB, pounds * OUNCES_PER_LB < 2 ? 1 : 0)}${NB}oz`
        : `${short(pounds)}${NB}lb`;
    }
    return kg < 0.095 && kg > 0 ? `${number(kg * GRAMS_PER_KG)}${NB}g` : `${short(kg)}${NB}kg`;
  };
  const days = (n: number) => said().days(Math.round(n), number(Math.round(n)));

  return {
    settings,
    number,
    short,
    mass,
    ...fineMasses(us, locale),
    /** Whole numbers for large totals; a small one keeps what makes it more than nothing. */
    massWhole: (kg: number) => `${short(us ? kg / KG_PER.lb : kg)}${NB}${us ? 'lb' : 'kg'}`,
    massValue: (kg: number, digits?: number) => {
      const value = us ? kg / KG_PER.lb : kg;
      return digits === undefined ? short(value) : number(value, digits);
    },
    /** The plain number in the shown unit, for a chart. */
    massRaw: (kg: number) => (us ? kg / KG_PER.lb : kg),
    massUnit: us ? ('lb' as const) : ('kg' as const),
    water: (kg: number) => (us ? `${short(kg / LITRES_PER_QUART)}${NB}${said().quarts}` : `${short(kg)}${NB}${said().litres}`),
    litres: (l: number) => (us ? `${short(l / (4 * LITRES_PER_QUART))}${NB}${said().gallons}` : `${short(l)}${NB}${said().litres}`),
    depth: (m: number) => (us ? `${short((m / METRES_PER_FOOT) * INCHES_PER_FOOT)}${NB}${said().inches}` : `${short(m * CM_PER_M)}${NB}cm`),
    area: (m2: number) => (us ? `${short(m2 / METRES_PER_FOOT ** 2)}${NB}${said().squareFeet}` : `${short(m2)}${NB}m²`),
    length: (m: number) => (us ? `${short(m / METRES_PER_FOOT)}${NB}${said().feet}` : `${short(m)}${NB}m`),
    temp: (c: number) => `${number(fromCelsius(c, us ? 'f' : 'c'))}${NB}°${us ? 'F' : 'C'}`,
    tempUnit: us ? ('f' as const) : ('c' as const),
    percent: (fraction: number) => `${number(percentFromFrac(fraction))}${NB}%`,
    /** A chance is never called certain. */
    chance: (p: number) =>
      p > 0.99 ? said().over(`99${NB}%`) : p < 0.01 ? said().under(`1${NB}%`) : `${number(percentFromFrac(p))}${NB}%`,
    days,
    /** Beyond two months a number of days of food means only: far too much. */
    foodDays: (n: number) => (n > MOST_FOOD_DAYS ? said().over(days(MOST_FOOD_DAYS)) : days(n)),
    hours: (minutes: number) => `${short(minutes / MINUTES_PER_HOUR)}${NB}h`,
    /** One decimal everywhere, so that a column adds up as shown. */
    hoursShown: (minutes: number) => number(minutes / MINUTES_PER_HOUR, 1),
    minutes: (n: number) =>
      n >= 2 * MINUTES_PER_HOUR || (n >= MINUTES_PER_HOUR && n % MINUTES_PER_HOUR === 0)
        ? said().hours(n / MINUTES_PER_HOUR, short(n / MINUTES_PER_HOUR))
        : said().minutes(n, number(n)),
    weekday,
    shortWeekday,
    date,
    longDate,
    fullDate,
    dayOfMonth: (day: string) => String(Number(day.slice(8, 10))),
    weekdayMonth: (day: string) => `${shortWeekday(day)} ${shortMonth(day)}`,
    month: intl({ month: 'long' }),
    monthYear: intl({ month: 'long', year: 'numeric' }),
    ...nearDays({ today, weekday, date, days }),
    time: (instant: string) => localTime(instant, timeZone),
    localDayOf: (instant: string) => localDay(instant, timeZone),
    /** `10:00 to 11:30`; a shift past midnight keeps its wall time. */
    timeSpan: (start: string, minutes: number) => {
      const [h = 0, m = 0] = start.split(':').map(Number);
      const end = h * MINUTES_PER_HOUR + m + minutes;
      const two = (n: number) => String(n).padStart(2, '0');
      return said().timeSpan(start, `${two(Math.floor(end / MINUTES_PER_HOUR) % HOURS_PER_DAY)}:${two(end % MINUTES_PER_HOUR)}`);
    },
    addDays,
    dayNumber,
    list: (items: readonly string[]) => new Intl.ListFormat(locale, { type: 'conjunction' }).format(items),
    either: (items: readonly string[]) => new Intl.ListFormat(locale, { type: 'disjunction' }).format(items),
  };
}

/** Masses as a scale shows them. */
function fineMasses(us: boolean, locale: string) {
  const number = (value: number, least: number, most: number) => numberMaker(locale, least, most).format(value);
  /** Exact to the gram, for reports and for what was typed. */
  const massExact = (kg: number) => (us ? `${number(kg / KG_PER.lb, 2, 2)}${NB}lb` : `${number(kg, 1, 3)}${NB}kg`);
  /** As fine as a kitchen scale: grams below a kilogram. */
  const massFine = (kg: number) => (us || kg >= 1 ? massExact(kg) : `${number(kg * GRAMS_PER_KG, 0, 0)}${NB}g`);
  return { massExact, massFine };
}

interface DayWords {
  readonly today: string;
  readonly weekday: (day: string) => string;
  readonly date: (day: string) => string;
  readonly days: (n: number) => string;
}

/** Days as they stand to today. */
function nearDays({ today, weekday, date, days }: DayWords) {
  return {
    /** A day near today in the words people use: today, tomorrow, by Friday. */
    near: (day: string) => {
      const away = daysBetween(today, day);
      if (away === 0) return said().today;
      if (away === 1) return said().tomorrow;
      if (away === -1) return said().yesterday;
      if (Math.abs(away) < DAYS_PER_WEEK) return weekday(day);
      return date(day);
    },
    /** The same inside a sentence: today, tomorrow, on Friday, on 3 Dec. */
    on: (day: string) => {
      const away = daysBetween(today, day);
      if (away === 0) return said().today;
      if (away === 1) return said().tomorrow;
      return said().on(away > 0 && away < DAYS_PER_WEEK ? weekday(day) : date(day));
    },
    ago: (day: string) => {
      const back = daysBetween(day, today);
      if (back <= 0) return said().today;
      if (back === 1) return said().yesterday;
      return back < 60 ? said().ago(days(back)) : said().on(date(day));
    },
    since: (day: string) => {
      const back = daysBetween(day, today);
      if (back <= 0) return said().since(said().today);
      if (back === 1) return said().since(said().yesterday);
      return said().since(back < DAYS_PER_WEEK ? weekday(day) : date(day));
    },
  };
}
