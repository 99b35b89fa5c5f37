import { expect, it } from 'vitest';
import { columnsOf, lastYear, longestOf, sumOf, type Week } from './year.ts';

const week = (from: string, fedG: number, harvestedG: number): Week => ({ from, fedG, beddingG: 0, harvestedG, minutes: 30, shifts: 1 });
const WEEKS = [week('2026-11-09', 2000, 0), week('2026-11-16', 0, 8000), week('2026-11-23', 4000, 1000)];

it('a year is 52 weeks that end today', () => {
  expect(lastYear('2026-11-25')).toEqual({ from: '2025-12-03', to: '2026-11-25' });
});

it('what went in and what came out are drawn to one scale', () => {
  expect(columnsOf(WEEKS).map(({ up, down }) => [up, down])).toEqual([
    [0.25, 0],
    [0, 1],
    [0.5, 0.125],
  ]);
  expect(columnsOf([week('2026-11-09', 0, 0)])).toEqual([{ from: '2026-11-09', up: 0, down: 0 }]);
});

it('the longest column is named, and none where nothing was noted', () => {
  expect(longestOf(WEEKS)).toEqual({ from: '2026-11-16', grams: 8000 });
  expect(longestOf([week('2026-11-09', 0, 0)])).toBeNull();
  expect([sumOf(WEEKS, 'fedG'), sumOf(WEEKS, 'harvestedG'), sumOf(WEEKS, 'shifts')]).toEqual([6000, 9000, 3]);
});
