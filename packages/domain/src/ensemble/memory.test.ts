import { describe, expect, it } from 'vitest';
import type { BinRun } from '../bin/run.ts';
import type { BinEvent, Scenario } from '../bin/scenario.ts';
import { outlookOf } from '../outlook.ts';
import { encodeCheckpoint, restoreRun } from './checkpoint.ts';
import { type RunMemory, restsOn } from './memory.ts';

const SETTINGS = { checkIntervalDays: 7, resting: false };

const feedings = Array.from(
  { length: 14 },
  (_, i): BinEvent => ({
    day: i * 5,
    type: 'feeding',
    zone: (i % 2) + 1,
    items: [{ material: 'food_scraps_veg', massKg: 1.2, how: 'container' }],
    beddingKg: 0.1,
    entryId: `f${i}`,
  }),
);
const checks = [12, 26, 40, 54, 66].map(
  (day): BinEvent => ({ day, type: 'check', leftover: { '1': 'most' }, squeeze: 'few-drops', entryId: `c${day}` }),
);
const odd: BinEvent = { day: 50, type: 'check', tempC: 41, entryId: 'odd' };

function scenarioOf(events: readonly BinEvent[]): Scenario {
  return {
    schema: 'middenry-scenario/1',
    days: 70,
    members: 64,
    seed: 11,
    bin: {
      ...{ kind: 'tote', areaM2: 0.2, depthM: 0.35, zones: 2, openBase: false, ageDays: 100, bedWaterKg: 4 },
      worms: { massKg: 0.5 },
      bed: [{ material: 'cardboard_corrugated', massKg: 2 }],
    },
    climate: { tempC: 20 },
    events: [...events].sort((a, b) => a.day - b.day),
  };
}

/** Keeps every run it is shown and says which one it gave back. */
function remembering(days: (today: number) => readonly number[]): RunMemory & { readonly recalled: (number | null)[] } {
  const kept: { day: number; key: string; blob: Float64Array; rows: BinRun['rows']; surprises: BinRun['surprises'] }[] = [];
  const recalled: (number | null)[] = [];
  return {
    recalled,
    keepDays: days,
    keep: (run) =>
      void kept.push({
        day: run.day,
        key: restsOn(run.scenario, run.day).join('\n'),
        blob: encodeCheckpoint(run, 40),
        rows: [...run.rows],
        surprises: [...run.surprises],
      }),
    recall: (scenario, today) => {
      const found = kept.findLast(({ day, key }) => day < today && key === restsOn(scenario, day).join('\n'));
      recalled.push(found?.day ?? null);
      if (!found) return null;
      const run = restoreRun(scenario, found.blob);
      run.rows.push(...found.rows);
      run.surprises.push(...found.surprises);
      return run;
    },
  };
}

describe('outlookOf() with a memory', () => {
  it('says to the last figure what it says without one, and goes on from the day before', () => {
    const scenario = scenarioOf([...feedings, ...checks, odd]);
    const memory = remembering((today) => [today - 1]);
    const straight = [60, 61, 70].map((today) => outlookOf(scenario, today, SETTINGS));
    const remembered = [60, 61, 70].map((today) => outlookOf(scenario, today, SETTINGS, memory));
    expect(remembered).toEqual(straight);
    expect(memory.recalled).toEqual([null, 59, 60]);
    expect(straight[2]?.surprises.map(({ entryId }) => entryId)).toEqual(['odd']);
  }, 60_000);

  it('keeps as many days of history as without one', () => {
    const scenario = scenarioOf(feedings);
    const settings = { ...SETTINGS, historyDays: 35 };
    const memory = remembering((today) => [today - 10, today - 1]);
    outlookOf(scenario, 68, settings, memory);
    expect(outlookOf(scenario, 69, settings, memory)).toEqual(outlookOf(scenario, 69, settings));
  });

  it('goes back to before an entry that is put in late', () => {
    const memory = remembering(() => [28, 48, 69]);
    outlookOf(scenarioOf([...feedings, ...checks]), 70, SETTINGS, memory);
    const late = scenarioOf([...feedings, ...checks, { ...odd, day: 49 }]);
    expect(outlookOf(late, 70, SETTINGS, memory)).toEqual(outlookOf(late, 70, SETTINGS));
    expect(memory.recalled).toEqual([null, 48]);
  });
});

describe('restsOn()', () => {
  it('differs from the day on which anything differs, and not before', () => {
    const one = restsOn(scenarioOf(feedings), 70);
    const other = restsOn(scenarioOf([...feedings, odd]), 70);
    expect(one.findIndex((line, i) => line !== other[i])).toBe(51);
    const warmer = restsOn({ ...scenarioOf(feedings), climate: { tempC: 20, readings: [[30, 25]] } }, 70);
    expect(one.findIndex((line, i) => line !== warmer[i])).toBe(31);
    expect(restsOn({ ...scenarioOf(feedings), members: 65 }, 70)[0]).not.toBe(one[0]);
  });
});
