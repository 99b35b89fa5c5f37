import { expect, test } from 'vitest';
import { en } from '../words/en.ts';
import { es } from '../words/es.ts';
import { calendarText, type StampedEvent, written } from './event.ts';

const event = (at: number): StampedEvent => ({
  ...{ uid: `shift-${at}`, summary: `Bin feeding – Long Meadow, “hüt”; back\\gate ${at}`, location: 'Long Meadow, “hüt”' },
  ...{ description: at % 2 === 0 ? '' : 'Bins: T1, F1', url: at % 3 === 0 ? null : `https://bins.example/shifts/${at}` },
  ...{ startsAt: new Date(Date.UTC(2027, 2, 27, at)), endsAt: new Date(Date.UTC(2027, 2, 27, at + 1)), cancelled: at % 4 === 0 },
  ...{ sequence: at, changedAt: new Date(Date.UTC(2026, 10, 25, 10, at)) },
});

test('C17: events written one by one and kept give the very text that the library writes in one go', () => {
  const events = Array.from({ length: 12 }, (_, at) => event(at));
  expect(calendarText(events, en)).toBe(written(events, en));
  const changed = events.map((each, at) => (at === 5 ? { ...each, sequence: 99, cancelled: true } : each));
  expect(calendarText(changed, es)).toBe(written(changed, es));
  expect(calendarText([], en)).toBe(written([], en));
});
