import { describe, expect, test } from 'vitest';
import { localTimeAt, startOf } from '../local-time.ts';
import { quietSpanAt } from './quiet.ts';
import { reminderTimes } from './reminder-times.ts';

const USUAL = { quietFrom: '21:00', quietTo: '07:00' };
const NONE = { quietFrom: '00:00', quietTo: '00:00' };

const at = (timeZone: string, localDate: string, localTime: string, quiet = USUAL) =>
  reminderTimes({ timeZone, localDate, localTime }, quiet).map(({ dueAt }) => dueAt.toISOString());

/** Days on which the clocks change, or zones with odd offsets; the date is the Sunday of the change where there is one. */
const ZONES = [
  ['Europe/London', '2027-03-28', '2027-03-27T09:00:00.000Z', '2027-03-28T06:00:00.000Z'],
  ['Europe/London', '2027-10-31', '2027-10-30T08:00:00.000Z', '2027-10-31T07:00:00.000Z'],
  ['America/New_York', '2027-03-14', '2027-03-13T14:00:00.000Z', '2027-03-14T11:00:00.000Z'],
  ['America/New_York', '2027-11-07', '2027-11-06T13:00:00.000Z', '2027-11-07T12:00:00.000Z'],
  ['Australia/Lord_Howe', '2027-04-04', '2027-04-02T22:00:00.000Z', '2027-04-03T20:30:00.000Z'],
  ['Australia/Lord_Howe', '2027-10-03', '2027-10-01T22:30:00.000Z', '2027-10-02T20:00:00.000Z'],
  ['Africa/Casablanca', '2027-02-07', '2027-02-06T08:00:00.000Z', '2027-02-07T07:00:00.000Z'],
  ['Asia/Kathmandu', '2027-03-28', '2027-03-27T03:15:00.000Z', '2027-03-28T01:15:00.000Z'],
  ['Pacific/Apia', '2027-03-28', '2027-03-26T20:00:00.000Z', '2027-03-27T18:00:00.000Z'],
] as const;

describe('reminderTimes()', () => {
  test.each(ZONES)('C11, F15: %s on %s reminds at 09:00 the day before and two hours before 09:00', (zone, date, day, hours) => {
    expect(at(zone, date, '09:00')).toEqual([day, hours]);
  });

  test.each(ZONES)('C11: %s around %s keeps to the quiet hours at every start, and never comes after it', (zone, date) => {
    for (let hour = 0; hour < 24; hour += 1) {
      const shift = { timeZone: zone, localDate: date, localTime: `${String(hour).padStart(2, '0')}:30` };
      for (const { dueAt, staleAt } of reminderTimes(shift, USUAL)) {
        expect([shift.localTime, quietSpanAt(dueAt, zone, USUAL)]).toEqual([shift.localTime, null]);
        expect(dueAt < startOf(shift).startsAt && dueAt < staleAt).toBe(true);
      }
    }
  });

  test('C6: what falls into the night comes in the morning, or the evening before where that is too late', () => {
    const shown = (localTime: string) =>
      reminderTimes({ timeZone: 'Europe/London', localDate: '2026-12-05', localTime }, USUAL).map(({ dueAt }) =>
        dueAt.toISOString().slice(5, 16),
      );
    expect(shown('08:00')).toEqual(['12-04T08:00', '12-05T07:00']);
    expect(shown('07:15')).toEqual(['12-04T07:15', '12-04T20:45']);
    expect(shown('06:30')).toEqual(['12-04T07:00', '12-04T20:45']);
    expect(shown('22:00')).toEqual(['12-05T07:00', '12-05T20:00']);
  });

  test('without quiet hours they come when they fall', () => {
    expect(at('Europe/London', '2026-12-05', '03:00', NONE)).toEqual(['2026-12-04T03:00:00.000Z', '2026-12-05T01:00:00.000Z']);
  });
});

describe('quietSpanAt()', () => {
  test('F15: the night in which clocks go forward is an hour shorter', () => {
    const span = quietSpanAt(new Date('2027-03-28T01:30:00Z'), 'Europe/London', USUAL);
    expect(span).toEqual({ from: new Date('2027-03-27T21:00:00Z'), to: new Date('2027-03-28T06:00:00Z') });
  });

  test('quiet hours within one day', () => {
    const quiet = { quietFrom: '12:00', quietTo: '14:00' };
    const isQuiet = (time: string) => quietSpanAt(new Date(`2026-12-05T${time}:00Z`), 'Europe/London', quiet) !== null;
    expect(['11:59', '12:00', '13:59', '14:00'].map(isQuiet)).toEqual([false, true, true, false]);
    expect(localTimeAt(new Date('2026-12-05T12:00:00Z'), 'Europe/London')).toBe('12:00');
  });
});
