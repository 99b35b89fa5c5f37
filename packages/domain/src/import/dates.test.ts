import { describe, expect, it, test } from 'vitest';
import { type DateOrder, orderOf, readDay } from './dates.ts';

const cells = (texts: readonly string[]) => texts.map((text) => ({ text }));
const shown = (text: string, order: DateOrder | null = null): string => {
  const read = readDay({ text }, order);
  return typeof read === 'string' ? read : read.day + (read.time === null ? '' : ` ${read.time}`);
};

/** One column on a line: its cells, then what is found out about their order. */
const COLUMNS: readonly (readonly [cells: readonly string[], found: ReturnType<typeof orderOf>])[] = [
  [['13/01/2026'], 'day-first'],
  [['31/12/2026', '1/2/2026'], 'day-first'],
  [['1/2/2026', '3/4/2026', '25/4/2026'], 'day-first'],
  [['13.1.26'], 'day-first'],
  [['13-1-2026'], 'day-first'],
  [['Sat 14/3/2026'], 'day-first'],
  [['14/3/2026 09:15'], 'day-first'],
  [['01/13/2026'], 'month-first'],
  [['1/2/2026', '12/31/2026'], 'month-first'],
  [['3-25-26'], 'month-first'],
  [['1/2/2026'], 'ask'],
  [['1/2/2026', '12/11/2026', '5/5/2026'], 'ask'],
  [['01.02.2026'], 'ask'],
  [['1/2/26'], 'ask'],
  [['13/1/2026', '1/13/2026'], 'mixed'],
  [['1/2/2026', '25/1/2026', '1/25/2026'], 'mixed'],
  [['2026-02-01'], 'free'],
  [['5/5/2026', '7/7/2026'], 'free'],
  [['1 March 2026', '2026/3/2', '46000'], 'free'],
  [['', 'n/a'], 'free'],
  [['14/15/2026'], 'free'],
  [['2026-02-01', '3/4/2026'], 'ask'],
  [['1 Feb 2026', '25/4/2026'], 'day-first'],
];

const READ: readonly (readonly [text: string, order: DateOrder | null, shown: string])[] = [
  ['2026-03-05', null, '2026-03-05'],
  ['2026-3-5', null, '2026-03-05'],
  ['2026/03/05', null, '2026-03-05'],
  ['2026.03.05', null, '2026-03-05'],
  ['20260305', null, '2026-03-05'],
  ['2026-03-05T08:40:00.000Z', null, '2026-03-05 08:40'],
  ['2026-03-05 8:40', null, '2026-03-05 08:40'],
  ['5/3/2026', 'day-first', '2026-03-05'],
  ['5/3/2026', 'month-first', '2026-05-03'],
  ['5/3/2026', null, 'order-unknown'],
  ['5/5/2026', null, '2026-05-05'],
  ['05.03.2026', 'day-first', '2026-03-05'],
  ['5-3-2026', 'month-first', '2026-05-03'],
  ['5 / 3 / 2026', 'day-first', '2026-03-05'],
  ['5/3/26', 'day-first', '2026-03-05'],
  ['5/3/99', 'day-first', '1999-03-05'],
  ['25/3/2026', 'month-first', 'no-such-day'],
  ['5/3/2026 2:05 pm', 'day-first', '2026-03-05 14:05'],
  ['5/3/2026 12:30 am', 'day-first', '2026-03-05 00:30'],
  ['5/3/2026 12:30 PM', 'day-first', '2026-03-05 12:30'],
  ['5/3/2026 14h05', 'day-first', '2026-03-05 14:05'],
  ['31/2/2026', 'day-first', 'no-such-day'],
  ['2/31/2026', 'month-first', 'no-such-day'],
  ['29/2/2026', 'day-first', 'no-such-day'],
  ['29/2/2024', 'day-first', '2024-02-29'],
  ['31/4/2026', 'day-first', 'no-such-day'],
  ['0/4/2026', 'day-first', 'no-such-day'],
  ['2026-13-01', null, 'no-such-day'],
  ['2026-02-30', null, 'no-such-day'],
  ['13/14/2026', 'day-first', 'no-such-day'],
  ['5 March 2026', null, '2026-03-05'],
  ['5th March 2026', null, '2026-03-05'],
  ['March 5, 2026', null, '2026-03-05'],
  ['Mar 5 2026', null, '2026-03-05'],
  ['5-Mar-26', null, '2026-03-05'],
  ['05 mar 2026', null, '2026-03-05'],
  ['2026 March 5', null, '2026-03-05'],
  ['Thursday, March 5, 2026', null, '2026-03-05'],
  ['Thu 5 Mar 2026', null, '2026-03-05'],
  ['5 de marzo de 2026', null, '2026-03-05'],
  ['martes 3 de marzo de 2026', null, '2026-03-03'],
  ['mar 3 mar 2026', null, 'not-a-date'],
  ['5 ene 2026', null, '2026-01-05'],
  ['Sept 9, 2026', null, '2026-09-09'],
  ['30 February 2026', null, 'no-such-day'],
  ['5 March', null, 'no-year'],
  ['March 26', null, 'no-year'],
  ['March 2026', null, 'not-a-date'],
  ['5/3', null, 'no-year'],
  ['5.3', null, 'no-year'],
  ['46086', null, '2026-03-05'],
  ['46086.5', null, '2026-03-05'],
  ['44927', null, '2023-01-01'],
  ['123', null, 'not-a-date'],
  ['2026', null, 'not-a-date'],
  ['99999', null, 'not-a-date'],
  ['yesterday', null, 'not-a-date'],
  ['', null, 'no-date'],
  ['5/3/202', 'day-first', 'not-a-date'],
  ['5/3/20266', 'day-first', 'not-a-date'],
  ['1/2/3/2026', 'day-first', 'not-a-date'],
  ['two of March 2026', null, 'not-a-date'],
];

describe('G7: the order of a column', () => {
  test.each(COLUMNS)('of %j is %s', (texts, found) => {
    expect(orderOf(cells(texts))).toBe(found);
  });
});

describe('G7: one day', () => {
  it('makes eighty cases with the columns above', () => {
    expect(COLUMNS.length + READ.length).toBeGreaterThanOrEqual(80);
  });

  test.each(READ)('"%s" read %s is %s', (text, order, wanted) => {
    expect(shown(text, order)).toBe(wanted);
  });
});
