/**
 * Local start to instant, 62 cases of criteria C11. Expected instants were worked out by another
 * program (the zoneinfo module of Python's standard library over the IANA zone files), not by ours.
 */
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { addDays, dayOfYear, daysBetween, localDateAt, localTimeAt, startOf, weeklyFrom, type ZoneRules } from './local-time.ts';

// zone, local date, local time, instant, whether the clocks skipped that time
const CASES: readonly (readonly [string, string, string, string, boolean])[] = [
  ['Europe/London', '2027-03-21', '09:00', '2027-03-21T09:00:00Z', false],
  ['Europe/London', '2027-03-28', '09:00', '2027-03-28T08:00:00Z', false],
  ['Europe/London', '2027-04-04', '09:00', '2027-04-04T08:00:00Z', false],
  ['Europe/London', '2027-10-24', '09:00', '2027-10-24T08:00:00Z', false],
  ['Europe/London', '2027-10-31', '09:00', '2027-10-31T09:00:00Z', false],
  ['Europe/London', '2027-11-07', '09:00', '2027-11-07T09:00:00Z', false],
  ['Europe/London', '2027-03-28', '00:30', '2027-03-28T00:30:00Z', false],
  ['Europe/London', '2027-03-28', '01:00', '2027-03-28T01:00:00Z', true],
  ['Europe/London', '2027-03-28', '01:30', '2027-03-28T01:30:00Z', true],
  ['Europe/London', '2027-03-28', '02:00', '2027-03-28T01:00:00Z', false],
  ['Europe/London', '2027-10-31', '00:30', '2027-10-30T23:30:00Z', false],
  ['Europe/London', '2027-10-31', '01:00', '2027-10-31T00:00:00Z', false],
  ['Europe/London', '2027-10-31', '01:30', '2027-10-31T00:30:00Z', false],
  ['Europe/London', '2027-10-31', '02:00', '2027-10-31T02:00:00Z', false],
  ['America/New_York', '2027-03-07', '09:00', '2027-03-07T14:00:00Z', false],
  ['America/New_York', '2027-03-14', '09:00', '2027-03-14T13:00:00Z', false],
  ['America/New_York', '2027-03-21', '09:00', '2027-03-21T13:00:00Z', false],
  ['America/New_York', '2027-10-31', '09:00', '2027-10-31T13:00:00Z', false],
  ['America/New_York', '2027-11-07', '09:00', '2027-11-07T14:00:00Z', false],
  ['America/New_York', '2027-11-14', '09:00', '2027-11-14T14:00:00Z', false],
  ['America/New_York', '2027-03-14', '01:59', '2027-03-14T06:59:00Z', false],
  ['America/New_York', '2027-03-14', '02:00', '2027-03-14T07:00:00Z', true],
  ['America/New_York', '2027-03-14', '02:30', '2027-03-14T07:30:00Z', true],
  ['America/New_York', '2027-03-14', '03:00', '2027-03-14T07:00:00Z', false],
  ['America/New_York', '2027-11-07', '00:59', '2027-11-07T04:59:00Z', false],
  ['America/New_York', '2027-11-07', '01:00', '2027-11-07T05:00:00Z', false],
  ['America/New_York', '2027-11-07', '01:30', '2027-11-07T05:30:00Z', false],
  ['America/New_York', '2027-11-07', '02:00', '2027-11-07T07:00:00Z', false],
  ['Australia/Lord_Howe', '2027-03-28', '09:00', '2027-03-27T22:00:00Z', false],
  ['Australia/Lord_Howe', '2027-04-04', '09:00', '2027-04-03T22:30:00Z', false],
  ['Australia/Lord_Howe', '2027-04-11', '09:00', '2027-04-10T22:30:00Z', false],
  ['Australia/Lord_Howe', '2027-09-26', '09:00', '2027-09-25T22:30:00Z', false],
  ['Australia/Lord_Howe', '2027-10-03', '09:00', '2027-10-02T22:00:00Z', false],
  ['Australia/Lord_Howe', '2027-10-10', '09:00', '2027-10-09T22:00:00Z', false],
  ['Australia/Lord_Howe', '2027-04-04', '01:29', '2027-04-03T14:29:00Z', false],
  ['Australia/Lord_Howe', '2027-04-04', '01:30', '2027-04-03T14:30:00Z', false],
  ['Australia/Lord_Howe', '2027-04-04', '01:45', '2027-04-03T14:45:00Z', false],
  ['Australia/Lord_Howe', '2027-04-04', '02:00', '2027-04-03T15:30:00Z', false],
  ['Australia/Lord_Howe', '2027-10-03', '01:59', '2027-10-02T15:29:00Z', false],
  ['Australia/Lord_Howe', '2027-10-03', '02:00', '2027-10-02T15:30:00Z', true],
  ['Australia/Lord_Howe', '2027-10-03', '02:15', '2027-10-02T15:45:00Z', true],
  ['Australia/Lord_Howe', '2027-10-03', '02:30', '2027-10-02T15:30:00Z', false],
  ['Africa/Casablanca', '2027-01-31', '09:00', '2027-01-31T08:00:00Z', false],
  ['Africa/Casablanca', '2027-02-07', '09:00', '2027-02-07T09:00:00Z', false],
  ['Africa/Casablanca', '2027-02-14', '09:00', '2027-02-14T09:00:00Z', false],
  ['Africa/Casablanca', '2027-03-07', '09:00', '2027-03-07T09:00:00Z', false],
  ['Africa/Casablanca', '2027-03-14', '09:00', '2027-03-14T08:00:00Z', false],
  ['Africa/Casablanca', '2027-03-21', '09:00', '2027-03-21T08:00:00Z', false],
  ['Africa/Casablanca', '2027-02-07', '02:30', '2027-02-07T01:30:00Z', false],
  ['Africa/Casablanca', '2027-03-14', '02:30', '2027-03-14T02:30:00Z', true],
  ['Asia/Kathmandu', '2027-01-03', '09:00', '2027-01-03T03:15:00Z', false],
  ['Asia/Kathmandu', '2027-03-28', '09:00', '2027-03-28T03:15:00Z', false],
  ['Asia/Kathmandu', '2027-07-04', '09:00', '2027-07-04T03:15:00Z', false],
  ['Asia/Kathmandu', '2027-10-31', '09:00', '2027-10-31T03:15:00Z', false],
  ['Asia/Kathmandu', '1985-12-31', '23:50', '1985-12-31T18:20:00Z', false],
  ['Pacific/Apia', '2027-01-03', '09:00', '2027-01-02T20:00:00Z', false],
  ['Pacific/Apia', '2027-03-28', '09:00', '2027-03-27T20:00:00Z', false],
  ['Pacific/Apia', '2027-04-04', '09:00', '2027-04-03T20:00:00Z', false],
  ['Pacific/Apia', '2027-09-26', '09:00', '2027-09-25T20:00:00Z', false],
  ['Pacific/Apia', '2011-12-29', '09:00', '2011-12-29T19:00:00Z', false],
  ['Pacific/Apia', '2011-12-30', '09:00', '2011-12-30T19:00:00Z', true],
  ['Pacific/Apia', '2011-12-31', '09:00', '2011-12-30T19:00:00Z', false],
];

describe('startOf()', () => {
  test.each(CASES)('%s %s %s is %s, moved %s', (timeZone, localDate, localTime, instant, moved) => {
    const { startsAt, timeMoved } = startOf({ localDate, localTime, timeZone });
    expect(startsAt.toISOString()).toBe(new Date(instant).toISOString());
    expect(timeMoved).toBe(moved);
  });

  test('gives a new instant when the zone rules change and keeps the local time (C12)', () => {
    const local = { localDate: '2027-06-02', localTime: '09:00', timeZone: 'Europe/London' };
    const withoutSummerTime: ZoneRules = ({ localDate, localTime }) => {
      const shown = Temporal.PlainDateTime.from(`${localDate}T${localTime}`);
      return { instant: shown.toZonedDateTime('UTC').toInstant(), shown };
    };
    expect(startOf(local).startsAt.toISOString()).toBe('2027-06-02T08:00:00.000Z');
    expect(startOf(local, withoutSummerTime).startsAt.toISOString()).toBe('2027-06-02T09:00:00.000Z');
  });
});

describe('weeklyFrom()', () => {
  test("keeps nine o'clock over both changes of the clocks", () => {
    for (const timeZone of [
      'Europe/London',
      'America/New_York',
      'Australia/Lord_Howe',
      'Africa/Casablanca',
      'Asia/Kathmandu',
      'Pacific/Apia',
    ]) {
      const shown = weeklyFrom('2027-01-06', 52).map((localDate) =>
        localTimeAt(startOf({ localDate, localTime: '09:00', timeZone }).startsAt, timeZone),
      );
      expect(new Set(shown)).toEqual(new Set(['09:00']));
    }
  });

  test('keeps the weekday', () => {
    const dates = weeklyFrom('2026-11-25', 10);
    expect(dates).toHaveLength(10);
    expect(dates[9]).toBe('2027-01-27');
  });
});

describe('days', () => {
  test('localDateAt() is the day of the place, not of London', () => {
    const at = new Date('2026-11-25T11:30:00Z');
    expect(localDateAt(at, 'Pacific/Apia')).toBe('2026-11-26');
    expect(localDateAt(at, 'America/New_York')).toBe('2026-11-25');
  });

  test('localDateAt() is another day a second later, and the first one again when it is asked for again', () => {
    const [before, after] = [new Date('2026-11-25T22:59:59.999Z'), new Date('2026-11-25T23:00:00.000Z')];
    const inBerlin = [before, after, before].map((at) => localDateAt(at, 'Europe/Berlin'));
    expect(inBerlin).toEqual(['2026-11-25', '2026-11-26', '2026-11-25']);
    expect(localDateAt(after, 'Europe/London')).toBe('2026-11-25');
  });

  test('daysBetween(), addDays() and dayOfYear() count calendar days', () => {
    expect(daysBetween('2027-03-27', '2027-03-29')).toBe(2);
    expect(daysBetween('2027-03-29', '2027-03-27')).toBe(-2);
    expect(addDays('2028-02-28', 2)).toBe('2028-03-01');
    expect(dayOfYear('2028-12-31')).toBe(366);
  });
});
