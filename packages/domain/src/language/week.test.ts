import { describe, expect, test } from 'vitest';
import { firstWeekday, weekdaysOf } from './week.ts';

describe('firstWeekday()', () => {
  test.each([
    ['en-US', 7],
    ['es-US', 7],
    ['es-MX', 7],
    ['en', 7],
    ['en-GB', 1],
    ['es', 1],
    ['es-ES', 1],
    ['de-AT', 1],
    ['en-AU', 1],
    ['ar-EG', 6],
  ] as const)('a week of %s begins with day %d', (locale, first) => {
    expect(firstWeekday(locale)).toBe(first);
    // What this Node's own tables say, which not every browser has.
    expect((new Intl.Locale(locale) as Intl.Locale & { weekInfo: { firstDay: number } }).weekInfo.firstDay).toBe(first);
  });

  test('every country with a code is told as Unicode tells it', () => {
    const letters = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
    const known = new Intl.DisplayNames('en', { type: 'region', fallback: 'none' });
    const today = letters.flatMap((a) => letters.map((b) => a + b)).filter((code) => known.of(code) && code !== 'ZZ');
    const told = (code: string) => (new Intl.Locale(`und-${code}`) as Intl.Locale & { weekInfo: { firstDay: number } }).weekInfo.firstDay;
    expect(today.length).toBeGreaterThan(240);
    // Iceland's week begins with Sunday since CLDR 48; Node up to 20.19 holds 47.
    const since = Number.parseInt(process.versions.cldr!, 10) < 48 ? ['IS'] : [];
    expect(today.filter((code) => firstWeekday(`und-${code}`) !== told(code))).toEqual(since);
  });
});

test('weekdaysOf() is every day once, the first one first', () => {
  expect(weekdaysOf('en-US')).toEqual([7, 1, 2, 3, 4, 5, 6]);
  expect(weekdaysOf('es-ES')).toEqual([1, 2, 3, 4, 5, 6, 7]);
});
