/** Which day a cell means. The order of day and month is decided from the whole column, or asked; never guessed (criteria G7). */
import { SECONDS_PER_DAY } from '../units/time.ts';
import { isWeekday, monthNumber } from './calendar-words.ts';
import { plainText, type SheetCell } from './sheet.ts';

export type DateOrder = 'day-first' | 'month-first';

/** What a column of days says of its order. `free`: no cell depends on it. */
export type OrderFound = DateOrder | 'free' | 'ask' | 'mixed';

export type DateFault = 'no-date' | 'not-a-date' | 'no-such-day' | 'no-year' | 'order-unknown';

export interface DayRead {
  readonly day: string;
  /** As 14:30, where the cell told. */
  readonly time: string | null;
  /** The century is ours. */
  readonly isShortYear: boolean;
}

type Parts =
  | { readonly kind: 'whole'; readonly year: string; readonly month: number; readonly date: number }
  | { readonly kind: 'pair'; readonly one: number; readonly two: number; readonly year: string }
  | { readonly kind: 'day'; readonly day: string }
  | { readonly kind: 'fault'; readonly fault: DateFault };

const TIME =
  /(?:^(?=\d+[:h])|[\sT,])(\d{1,2})[:.h](\d{2})(?::\d{2}(?:[.,]\d+)?)?\s*(am|pm|a\.\s?m\.|p\.\s?m\.|hrs?|h)?(?:Z|[+-]\d\d:?\d\d)?$/i;
const YEAR_FIRST = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/;
const THREE_NUMBERS = /^(\d{1,2})\s?[-/.\s]\s?(\d{1,2})\s?[-/.\s]\s?(\d{4}|\d{2})$/;
const TWO_NUMBERS = /^\d{1,2}[-/.]\d{1,2}$/;
const COMPACT = /^(\d{4})(\d{2})(\d{2})$/;
const SERIAL = /^\d{5}(?:[.,]\d+)?$/;
/** Days from the year 1955 to 2119 in the count of spreadsheets, which begins with 1900. */
const SERIAL_FROM = 20_000;
const SERIAL_TO = 80_000;
const MS_PER_DAY = SECONDS_PER_DAY * 1000;
/** Day 0 of that count, which takes 1900 for a leap year. */
const SERIAL_EPOCH_MS = Date.UTC(1899, 11, 30);
const CENTURY = 2000;
const LAST_CENTURY = 1900;
/** Two figures from here on are of the last century: nobody kept bins for fifty years to come. */
const SHORT_YEAR_TURN = 70;
const NOON = 12;

/** What the cells of a column say about their order, taken together. */
export function orderOf(cells: readonly SheetCell[]): OrderFound {
  let needed = false;
  const seen = new Set<DateOrder>();
  for (const cell of cells) {
    const parts = partsOf(cell);
    if (parts.kind !== 'pair') continue;
    if (parts.one === parts.two) continue;
    if (parts.one > NOON && parts.two <= NOON) seen.add('day-first');
    else if (parts.two > NOON && parts.one <= NOON) seen.add('month-first');
    else if (parts.one <= NOON) needed = true;
  }
  if (seen.size === 2) return 'mixed';
  return [...seen][0] ?? (needed ? 'ask' : 'free');
}

/** The day that a cell means, or why it means none. */
export function readDay(cell: SheetCell, order: DateOrder | null): DayRead | DateFault {
  if (cell.text.trim() === '' && cell.day === undefined) return 'no-date';
  const parts = partsOf(cell);
  const time = cell.time ?? timeIn(cell.text);
  switch (parts.kind) {
    case 'fault':
      return parts.fault;
    case 'day':
      return { day: parts.day, time: cell.day === undefined ? null : (cell.time ?? null), isShortYear: false };
    case 'whole':
      return dayFrom(parts.year, parts.month, parts.date, time);
    case 'pair': {
      const { one, two, year } = parts;
      if (one === two) return dayFrom(year, one, two, time);
      if (order === null) return 'order-unknown';
      return order === 'day-first' ? dayFrom(year, two, one, time) : dayFrom(year, one, two, time);
    }
    default:
      return parts satisfies never;
  }
}

function partsOf(cell: SheetCell): Parts {
  if (cell.day !== undefined) return { kind: 'day', day: cell.day };
  const text = cell.text.trim();
  if (isSerial(text)) return { kind: 'day', day: serialDay(Number(text.replace(',', '.'))) };
  const bare = text.replace(TIME, '').trim();
  const [, year, month, date] = YEAR_FIRST.exec(bare) ?? COMPACT.exec(bare) ?? [];
  if (year !== undefined) return { kind: 'whole', year, month: Number(month), date: Number(date) };
  const words = plainText(bare)
    .split(' ')
    .filter((word) => !isWeekday(word) || monthNumber(word) !== undefined);
  const three = THREE_NUMBERS.exec(words.every((word) => /^\d+$/.test(word)) ? words.join('/') : bare);
  if (three !== null) return { kind: 'pair', one: Number(three[1]), two: Number(three[2]), year: three[3]! };
  if (TWO_NUMBERS.test(bare)) return { kind: 'fault', fault: 'no-year' };
  return named(words);
}

/** "5 March 2026", "Mar 5th, 26", "5 de marzo de 2026". */
function named(words: readonly string[]): Parts {
  const numbers: string[] = [];
  let month: number | undefined;
  for (const [at, word] of words.entries()) {
    const found = monthNumber(word);
    // "mar" is March here and Tuesday there: beside another month it is the day of the week.
    const isWeekdayHere = isWeekday(word) && words.some((other, place) => place !== at && monthNumber(other) !== undefined);
    if (found !== undefined && !isWeekdayHere) {
      if (month !== undefined) return { kind: 'fault', fault: 'not-a-date' };
      month = found;
    } else if (/^\d+(st|nd|rd|th|o)?$/.test(word)) numbers.push(word.replace(/\D+$/, ''));
    else if (!isWeekdayHere && !/^(de|del|of|the|el)$/.test(word)) return { kind: 'fault', fault: 'not-a-date' };
  }
  if (month === undefined) return { kind: 'fault', fault: 'not-a-date' };
  const [date, year] = numbers[0]?.length === 4 ? [numbers[1], numbers[0]] : numbers;
  if (date === undefined || numbers.length > 2) return { kind: 'fault', fault: 'not-a-date' };
  if (year === undefined) return { kind: 'fault', fault: date.length > 2 ? 'not-a-date' : 'no-year' };
  return { kind: 'whole', year, month, date: Number(date) };
}

function dayFrom(yearText: string, month: number, date: number, time: string | null): DayRead | DateFault {
  if (yearText.length !== 2 && yearText.length !== 4) return 'not-a-date';
  const isShortYear = yearText.length === 2;
  const short = Number(yearText) < SHORT_YEAR_TURN ? CENTURY : LAST_CENTURY;
  const year = isShortYear ? short + Number(yearText) : Number(yearText);
  const at = new Date(Date.UTC(year, month - 1, date));
  // The calendar of the language turns the 31st of February into the 3rd of March.
  if (at.getUTCFullYear() !== year || at.getUTCMonth() !== month - 1 || at.getUTCDate() !== date) return 'no-such-day';
  return { day: at.toISOString().slice(0, 10), time, isShortYear };
}

const isSerial = (text: string): boolean =>
  SERIAL.test(text) && Number.parseInt(text, 10) >= SERIAL_FROM && Number.parseInt(text, 10) <= SERIAL_TO;
const serialDay = (serial: number): string => new Date(SERIAL_EPOCH_MS + Math.floor(serial) * MS_PER_DAY).toISOString().slice(0, 10);

/** Time of day at the end of a text, as 14:30. */
export function timeIn(text: string): string | null {
  const [, hours, minutes, half] = TIME.exec(text.trim()) ?? [];
  if (hours === undefined) return null;
  const hour =
    (Number(hours) % NOON === 0 && half !== undefined && /^[ap]/i.test(half) ? 0 : Number(hours)) + (/^p/i.test(half ?? '') ? NOON : 0);
  return hour < 24 && Number(minutes) < 60 ? `${String(hour).padStart(2, '0')}:${minutes}` : null;
}
