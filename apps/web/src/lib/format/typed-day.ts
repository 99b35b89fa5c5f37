import { dayFromNumber, dayNumber } from './days.ts';

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
/** The Spanish ones that begin otherwise. */
const MESES: Readonly<Record<string, string>> = { ene: 'jan', abr: 'apr', ago: 'aug', dic: 'dec' };
const CENTURY = 2000;

/**
 * Reads a day as people type it: `27 3 2027`, `27/03/27`, `27 mar`, `2027-03-27`.
 *
 * @param today `2026-11-25`; a day without a year is the latest one not after today
 * @param monthFirst month before day, as in the United States, where the numbers leave it open
 * @returns The day, or null when it is no day
 */
export function readDay(typed: string, today: string, monthFirst = false): string | null {
  const text = typed
    .trim()
    .toLowerCase()
    .replace(/\bde\b/g, ' ')
    .replace(/(\d)(st|nd|rd|th)\b/g, '$1')
    .replace(/,/g, ' ');
  const iso = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(text);
  if (iso) return build(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const parts = text.split(/[\s/.-]+/).filter((p) => p !== '');
  if (parts.length < 2 || parts.length > 3) return null;
  const named = parts.findIndex((p) => /^[a-z]/.test(p));
  const year = parts[2] === undefined ? null : readYear(parts[2]);
  if (year === undefined) return null;
  const numbers = parts.slice(0, 2).map(Number);
  if (named > 1) return null;
  if (named >= 0) {
    const typedMonth = parts[named] ?? '';
    const word = MESES[typedMonth.slice(0, 3)] ?? typedMonth;
    const month = word.length >= 3 ? MONTHS.findIndex((m) => word.startsWith(m)) + 1 : 0;
    return month === 0 ? null : withYear(year, month, numbers[1 - named] ?? Number.NaN, today);
  }
  const [first = Number.NaN, second = Number.NaN] = numbers;
  const swap = monthFirst ? first <= 12 : second > 12;
  return swap ? withYear(year, first, second, today) : withYear(year, second, first, today);
}

function readYear(text: string): number | undefined {
  if (/^\d{4}$/.test(text)) return Number(text);
  return /^\d{2}$/.test(text) ? CENTURY + Number(text) : undefined;
}

function withYear(year: number | null, month: number, day: number, today: string): string | null {
  if (year !== null) return build(year, month, day);
  const thisYear = Number(today.slice(0, 4));
  const candidate = build(thisYear, month, day);
  return candidate !== null && candidate <= today ? candidate : build(thisYear - 1, month, day);
}

function build(year: number, month: number, day: number): string | null {
  if (!Number.isInteger(month) || !Number.isInteger(day) || month < 1 || month > 12 || day < 1) return null;
  const text = `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
  // A day that does not exist comes out as another one.
  return Number.isNaN(dayNumber(text)) || dayFromNumber(dayNumber(text)) !== text ? null : text;
}

/** Reads a time of day: `14:30`, `14.30`, `1430`, `9`, `2 pm`, `2:30pm`; null when it is none. */
export function readTime(typed: string): string | null {
  const text = typed.trim().toLowerCase().replace(/\s+/g, '');
  const parts = /^(\d{1,2})(?:[:.h]?(\d{2}))?(am|pm)?$/.exec(text);
  if (!parts) return null;
  let hour = Number(parts[1]);
  const minute = Number(parts[2] ?? 0);
  if (parts[3] !== undefined) {
    if (hour < 1 || hour > 12) return null;
    hour = (hour % 12) + (parts[3] === 'pm' ? 12 : 0);
  }
  return hour > 23 || minute > 59 ? null : `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`;
}
