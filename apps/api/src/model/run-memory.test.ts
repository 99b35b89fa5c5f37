import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { serialize } from 'node:v8';
import { deflateRawSync } from 'node:zlib';
import { type BandsBefore, type BinEvent, outlookOf, type Scenario, signalBandsOn } from '@middenry/domain';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openRunCache } from '../db/run-cache.ts';
import { isWanted, keepDays, tracksKept } from './keep-days.ts';
import { rememberer } from './rememberer.ts';
import { fileMemory } from './run-memory.ts';

const SETTINGS = { checkIntervalDays: 7, resting: false };
const feedings = Array.from(
  { length: 30 },
  (_, i): BinEvent => ({
    day: i * 4,
    type: 'feeding',
    zone: (i % 2) + 1,
    items: [{ material: 'food_scraps_veg', massKg: 0.9, how: 'container' }],
    beddingKg: 0.1,
    entryId: `f${i}`,
  }),
);
const check = (day: number): BinEvent => ({ day, type: 'check', leftover: { '1': 'half' }, squeeze: 'trickle', entryId: `c${day}` });

function scenarioOf(events: readonly BinEvent[], seed = 5): Scenario {
  return {
    schema: 'middenry-scenario/1',
    days: 120,
    members: 32,
    seed,
    bin: {
      ...{ kind: 'tote', areaM2: 0.2, depthM: 0.35, zones: 2, openBase: false, ageDays: 30, bedWaterKg: 4 },
      worms: { massKg: 0.5 },
      bed: [{ material: 'cardboard_corrugated', massKg: 2 }],
    },
    climate: { tempC: 19 },
    events: [...events].sort((a, b) => a.day - b.day),
  };
}
const logUntil = (day: number, more: readonly BinEvent[] = []): Scenario =>
  scenarioOf([...feedings, check(20), check(60), check(90), ...more].filter((event) => event.day <= day));

let dir: string;
let file: string;
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'middenry-memory-'));
  file = join(dir, 'cache.db');
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

/** Asks with the file as memory, and tells the day gone on from; null when stepped from the start. */
function asked(scenario: Scenario, today: number, version = 'one') {
  const cache = openRunCache(file);
  const memory = fileMemory(cache, scenario, today, version);
  let fromDay: number | null = null;
  const outlook = outlookOf(scenario, today, SETTINGS, {
    ...memory,
    recall: (...need) => {
      const run = memory.recall(...need);
      fromDay = run?.day ?? null;
      return run;
    },
  });
  memory.flush();
  cache.close();
  return { outlook, fromDay };
}

describe('fileMemory()', () => {
  test('gives the same answer as a run from the start: next day, after an entry, a late one, one undone, and after weeks', () => {
    const cases: readonly (readonly [string, Scenario, number, number | null])[] = [
      ['first', logUntil(100), 100, null],
      ['again', logUntil(100), 100, 99],
      ['an entry of today', logUntil(100, [check(100)]), 100, 99],
      ['the next day', logUntil(101, [check(100)]), 101, 99],
      ['an entry of four days ago', logUntil(101, [check(97), check(100)]), 101, 56],
      ['the same after two more days', logUntil(103, [check(97), check(100)]), 103, 100],
      ['that one undone', logUntil(103, [check(100)]), 103, 96],
      ['another of the day before yesterday', logUntil(103, [check(100), check(101)]), 103, 100],
      ['an entry of five weeks ago', logUntil(103, [check(65), check(100)]), 103, 56],
      ['a fortnight on', logUntil(115, [check(65), check(100)]), 115, 102],
    ];
    for (const [name, scenario, today, from] of cases) {
      const { outlook, fromDay } = asked(scenario, today);
      expect(fromDay, name).toBe(from);
      expect(outlook, name).toEqual(outlookOf(scenario, today, SETTINGS));
    }
  }, 60_000);

  test('two bins do not mix, and another program starts anew', () => {
    const [one, other] = [logUntil(60), scenarioOf(feedings, 6)];
    asked(one, 60);
    expect(asked(other, 60).fromDay).toBeNull();
    expect(asked(one, 60).fromDay).toBe(59);
    expect(asked(one, 60, 'two').fromDay).toBeNull();
  });
});

/** Without any memory: yesterday is looked at for its bands, then today. */
function straight(scenario: Scenario, today: number, bandsBefore?: BandsBefore) {
  const log = { ...scenario, events: scenario.events.filter(({ day }) => day < today) };
  return outlookOf(scenario, today, { ...SETTINGS, bandsBefore: bandsBefore ?? signalBandsOn(log, today - 1, SETTINGS) });
}

describe('rememberer()', () => {
  const ask = (today: number, meanwhile: () => void = () => undefined) => {
    const model = rememberer(file, import.meta.url);
    const scenario = logUntil(today);
    const { outlook, keep } = model.outlookOf(scenario, today, SETTINGS);
    meanwhile();
    keep();
    model.close();
    expect(outlook).toEqual(straight(scenario, today));
  };

  test('answers the same when the file is gone, is no database, or its folder is', () => {
    ask(40);
    expect(existsSync(file)).toBe(true);
    rmSync(file);
    ask(40);
    writeFileSync(file, 'this was never a database, and is long enough to be taken for the beginning of one, or not'.repeat(90));
    ask(41);
    rmSync(dir, { recursive: true, force: true });
    ask(42);
  });

  test.each(['DROP TABLE kept_run', 'DROP TABLE kept_outlook'])('answers on after %s under it', (tear) => {
    ask(40);
    const model = rememberer(file, import.meta.url);
    const torn = new Database(file);
    torn.exec(tear);
    torn.close();
    for (const scenario of [logUntil(40), logUntil(40, [check(39)])])
      expect(model.outlookOf(scenario, 40, SETTINGS).outlook).toEqual(straight(scenario, 40));
    model.close();
  });

  test('what was told before a start is told after it as it was, and worked out anew when anything it rests on is another', () => {
    ask(40);
    const marked = { ...straight(logUntil(40), 40), day: -1 };
    const db = new Database(file);
    db.prepare('UPDATE kept_outlook SET outlook = ?').run(deflateRawSync(serialize(marked)));
    db.close();
    const told = (scenario: Scenario, today: number, settings = SETTINGS) => {
      const model = rememberer(file, import.meta.url);
      const { outlook } = model.outlookOf(scenario, today, settings);
      model.close();
      return outlook;
    };
    expect(told(logUntil(40), 40)).toEqual(marked);
    expect(told(logUntil(40, [check(40)]), 40)).not.toMatchObject({ day: -1 });
    expect(told(logUntil(41), 41)).not.toMatchObject({ day: -1 });
    expect(told(logUntil(40), 40, { ...SETTINGS, resting: true })).not.toMatchObject({ day: -1 });
  });

  test('starts from the bands that were told yesterday, unless the log up to then says otherwise now', () => {
    ask(40);
    const told = { wet: { band: 'act', asked: 'act' } } as const;
    const db = new Database(file);
    db.prepare('UPDATE kept_look SET bands = ? WHERE day = 40').run(JSON.stringify(told));
    db.close();
    const model = rememberer(file, import.meta.url);
    const next = logUntil(41);
    expect(model.outlookOf(next, 41, SETTINGS).outlook).toEqual(straight(next, 41, told));
    const late = logUntil(41, [check(30)]);
    expect(model.outlookOf(late, 41, SETTINGS).outlook).toEqual(straight(late, 41));
    model.close();
  });
});

describe('keepDays()', () => {
  test('keeps a fortnight of days, a year of four-weekly ones and one a year before that, however old the bin', () => {
    const days = keepDays(2000);
    expect(days.slice(-14)).toEqual(Array.from({ length: 14 }, (_, i) => 1986 + i));
    expect(days.filter((day) => day % 28 === 0 && day >= 2000 - 13 * 28)).toHaveLength(13);
    expect(days.filter((day) => day < 2000 - 13 * 28)).toEqual([364, 728, 1092, 1456]);
    expect(days).toEqual([...days].sort((a, b) => a - b));
  });

  test('a long run is let go of after a fortnight, a four-weekly one after a year, a yearly one never', () => {
    expect(tracksKept(84, 90)).toEqual([31, 2]);
    expect(tracksKept(85, 90)).toEqual([31]);
    expect(isWanted({ day: 84, tracksFromDay: 54 }, 98)).toBe(true);
    expect(isWanted({ day: 84, tracksFromDay: 54 }, 99)).toBe(false);
    expect(isWanted({ day: 84, tracksFromDay: 83 }, 92)).toBe(true);
    expect(isWanted({ day: 84, tracksFromDay: 83 }, 500)).toBe(false);
    expect(isWanted({ day: 364, tracksFromDay: 363 }, 2000)).toBe(true);
  });
});

test('F27: a full cache keeps no runs of further bins, and goes on with those that it has', () => {
  const keepsOf = (seed: number, today: number, mostBytes?: number): readonly number[] => {
    const cache = openRunCache(file, mostBytes);
    const scenario = scenarioOf(
      [...feedings].filter(({ day }) => day <= today),
      seed,
    );
    const memory = fileMemory(cache, scenario, today, 'one');
    outlookOf(scenario, today, SETTINGS, memory);
    memory.flush();
    const days = cache.runsBefore(seed, today).map(({ day }) => day);
    cache.close();
    return days;
  };
  const atFirst = keepsOf(5, 40);
  expect(atFirst).toContain(39);
  expect(keepsOf(6, 40, 1)).toEqual([]);
  expect(keepsOf(5, 41, 1)).toContain(40);
  expect(keepsOf(6, 40)).toEqual(atFirst);
});
