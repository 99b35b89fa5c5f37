import { describe, expect, test } from 'vitest';
import { type ClimateScene, climateOf } from './climate.ts';

const MIN_C = Array(12).fill(4);
const MAX_C = Array(12).fill(10);
const scene = (change: Partial<ClimateScene> = {}): ClimateScene => ({
  bin: { startedOn: '2026-03-01', exposure: 'shade' },
  site: { minC: MIN_C, maxC: MAX_C },
  airReadings: [],
  days: 10,
  events: [],
  ...change,
});

describe('climateOf()', () => {
  test("is the site's months from the day of the year the bin was started", () => {
    expect(climateOf(scene())).toEqual({ monthly: { minC: MIN_C, maxC: MAX_C, firstDayOfYear: 60 } });
  });

  test('is a heated room for a bin that never leaves it, whatever was read outside', () => {
    const indoors = scene({ bin: { startedOn: '2026-03-01', exposure: 'indoors' }, airReadings: [['2026-03-04', -5]] });
    expect(climateOf(indoors)).toEqual({ tempC: 18 });
  });

  test('takes what was read outdoors and leaves out days before the bin', () => {
    const { readings } = climateOf(
      scene({
        airReadings: [
          ['2026-02-27', 1],
          ['2026-03-04', 12],
        ],
      }),
    );
    expect(readings).toEqual([[3, 12]]);
  });

  test('a bin moved indoors is warm from that day on, and read air no longer reaches it', () => {
    const moved = climateOf(
      scene({
        events: [{ day: 4, type: 'move', exposure: 'indoors' }],
        airReadings: [
          ['2026-03-03', 1],
          ['2026-03-08', 1],
        ],
      }),
    );
    expect(moved.monthly).toBeDefined();
    expect(moved.readings?.slice(0, 2)).toEqual([
      [4, 18],
      [5, 18],
    ]);
    expect(moved.readings?.filter(([, meanC]) => meanC === 1)).toEqual([[2, 1]]);
    expect(moved.readings?.some(([day]) => day === 10 + 14)).toBe(true);
  });

  test('a bin moved out again has the months again', () => {
    const events = [
      { day: 2, type: 'move', exposure: 'indoors' },
      { day: 5, type: 'move', exposure: 'shade' },
    ] as const;
    expect(climateOf(scene({ events })).readings?.map(([day]) => day)).toEqual([2, 3, 4]);
  });
});
