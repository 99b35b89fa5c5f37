import { describe, expect, it } from 'vitest';
import { readDay, readTime } from './typed-day.ts';

const TODAY = '2026-11-25';

describe('readDay()', () => {
  it.each([
    ['27 3 2027', '2027-03-27'],
    ['27/03/27', '2027-03-27'],
    ['27 mar', '2026-03-27'],
    ['27 Mar 2027', '2027-03-27'],
    ['27.3.2027', '2027-03-27'],
    ['27-3-27', '2027-03-27'],
    ['2027-03-27', '2027-03-27'],
    ['march 27', '2026-03-27'],
    ['27th March 2027', '2027-03-27'],
    ['Mar 27, 2027', '2027-03-27'],
    ['24 11', '2026-11-24'],
    ['25/11', '2026-11-25'],
    ['26/11', '2025-11-26'],
    ['26 nov', '2025-11-26'],
    ['3/27/2027', '2027-03-27'],
    ['29 2 2028', '2028-02-29'],
    ['29 2 2027', null],
    ['31 4 2026', null],
    ['1 1 2026', '2026-01-01'],
    ['1 sept 2026', '2026-09-01'],
    ['0 1 2026', null],
    ['32 1 2026', null],
    ['12 13 14 15', null],
    ['', null],
    ['hello', null],
    ['27', null],
    ['27 ma', null],
    ['27 3 202', null],
    ['27 xyz', null],
    ['  27   3   2027 ', '2027-03-27'],
    ['2 dec', '2025-12-02'],
  ])('reads %j as %j', (typed, day) => {
    expect(readDay(typed, TODAY)).toBe(day);
  });

  it('reads the month first where that is the custom', () => {
    expect([readDay('3/4/2026', TODAY), readDay('3/4/2026', TODAY, true), readDay('27/3/2026', TODAY, true)]).toEqual([
      '2026-04-03',
      '2026-03-04',
      '2026-03-27',
    ]);
  });
});

describe('readTime()', () => {
  it.each([
    ['14:30', '14:30'],
    ['14.30', '14:30'],
    ['1430', '14:30'],
    ['9', '09:00'],
    ['9:05', '09:05'],
    ['2 pm', '14:00'],
    ['2:30pm', '14:30'],
    ['12am', '00:00'],
    ['12 pm', '12:00'],
    ['24:00', null],
    ['9:60', null],
    ['13pm', null],
    ['', null],
    ['noon', null],
  ])('reads %j as %j', (typed, time) => {
    expect(readTime(typed)).toBe(time);
  });
});
