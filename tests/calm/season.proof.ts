/** Sixty bins through twenty-six weeks, looked at every day (A16): how often anything asks for action. */
import { describe, expect, test } from 'vitest';
import { keepBin } from '../../packages/domain/src/kept-site-cast.ts';

const BINS = 60;
const DAYS = 182;

describe('a season of sixty bins kept as advised', () => {
  const kept = Array.from({ length: BINS }, (_, number) => keepBin(number, DAYS));
  const alerts = kept.flatMap((bin) => bin.alerts);

  test('A16: raises at most one alert a day on average, and never more than five in a day', () => {
    const byDay = Array.from({ length: DAYS }, (_, day) => alerts.filter((alert) => alert.day === day).length);
    const bySignal = countBy(alerts.map(({ id }) => id));
    console.log(`${alerts.length} alerts in ${DAYS} days, most in a day ${Math.max(...byDay)}, by signal ${JSON.stringify(bySignal)}`);
    expect(alerts.length / DAYS).toBeLessThanOrEqual(1);
    expect(Math.max(...byDay)).toBeLessThanOrEqual(5);
  });

  test('A16: no flag of a bin comes and goes three times within three days', () => {
    const chattering = kept.flatMap(({ alerts: own }) =>
      own.filter(({ id, day }) => own.filter((other) => other.id === id && other.day >= day && other.day < day + 3).length >= 3),
    );
    expect(chattering).toEqual([]);
  });
});

function countBy(ids: readonly string[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const id of ids) counts[id] = (counts[id] ?? 0) + 1;
  return counts;
}
