/** Time given, as people write it: "1.5", "1h30", "90 min", "1:30", "2 hours". */
import { MINUTES_PER_HOUR } from '../units/time.ts';
import { type DecimalMark, readNumber } from './numbers.ts';
import { plainText, type SheetCell } from './sheet.ts';

export type HoursFault = 'no-amount' | 'not-a-number' | 'mark-unknown' | 'not-above-zero' | 'too-many-hours';
const MOST_MINUTES = 1440;

/** The unit of a column whose cells name none; undefined: hours. */
export const isMinutesHeading = (heading: string): boolean => /\b(min|mins|minute|minutes|minutos)\b/.test(plainText(heading));

/** Figures of a cell, for finding out about their decimal mark. */
export const hourFigures = (text: string): string => text.trim().replace(/\s*[a-z]+\.?$/i, '');

/** Whole minutes. */
export function readHours(
  cell: SheetCell,
  column: { readonly isMinutes: boolean; readonly mark: DecimalMark | null },
): number | HoursFault {
  const minutes = minutesIn(cell, column);
  if (typeof minutes === 'string') return minutes;
  if (minutes <= 0) return 'not-above-zero';
  return minutes > MOST_MINUTES ? 'too-many-hours' : Math.round(minutes);
}

function minutesIn(
  cell: SheetCell,
  { isMinutes, mark }: { readonly isMinutes: boolean; readonly mark: DecimalMark | null },
): number | HoursFault {
  if (cell.number !== undefined) return cell.number * (isMinutes ? 1 : MINUTES_PER_HOUR);
  const text = cell.text.trim().toLowerCase();
  if (text === '') return 'no-amount';
  const [, hours, rest] = /^(\d{1,2})\s*(?::|h|hrs?|hours?|horas?)\s*(\d{1,2})?\s*(?:m|min|mins|minutes?|minutos?)?\.?$/.exec(text) ?? [];
  if (Number(rest ?? 0) >= MINUTES_PER_HOUR) return 'not-a-number';
  if (hours !== undefined) return Number(hours) * MINUTES_PER_HOUR + Number(rest ?? 0);
  const [, figures, unit] = /^(.*?)\s*(h|hrs?|hours?|horas?|m|min|mins|minutes?|minutos?)?\.?$/.exec(text) ?? [];
  const value = readNumber(figures ?? '', mark);
  if (value === null) return 'not-a-number';
  if (value === 'ask') return 'mark-unknown';
  const inMinutes = unit === undefined ? isMinutes : unit.startsWith('m');
  return value * (inMinutes ? 1 : MINUTES_PER_HOUR);
}
