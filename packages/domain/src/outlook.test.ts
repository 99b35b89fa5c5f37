import { describe, expect, it } from 'vitest';
import type { BinEvent, BinSetup, Scenario } from './bin/scenario.ts';
import { type Outlook, outlookOf } from './outlook.ts';
import { FORECAST_DAYS } from './standing.ts';

/** A tote half a year old, in a shed at 18 C, with a kilogram of worms. */
const TOTE: BinSetup = {
  kind: 'tote',
  areaM2: 0.4,
  depthM: 0.4,
  zones: 4,
  openBase: false,
  ageDays: 10,
  worms: { massKg: 1 },
  bed: [
    { material: 'cardboard_corrugated', massKg: 3 },
    { material: 'castings', massKg: 6 },
  ],
  bedWaterKg: 8,
};

const scenario = (events: readonly BinEvent[], bin: Partial<BinSetup> = {}, tempC = 18): Scenario => ({
  schema: 'middenry-scenario/1',
  days: 90,
  members: 1,
  seed: 1,
  bin: { ...TOTE, ...bin },
  climate: { tempC },
  events,
});

const feed = (day: number, zone: number, massKg: number, beddingKg = massKg * 0.12): BinEvent => ({
  day,
  type: 'feeding',
  zone,
  items: [{ material: 'food_scraps_veg', massKg, how: 'weighed' }],
  beddingKg,
  beddingMaterial: 'cardboard_corrugated',
  entryId: `feeding-${day}`,
});
const look = (day: number): BinEvent => ({ day, type: 'check', smell: 'earthy', squeeze: 'one-two-drops', entryId: `check-${day}` });
const weekly = <T>(untilDay: number, each: (day: number, week: number) => T): T[] =>
  Array.from({ length: Math.floor(untilDay / 7) + 1 }, (_, week) => each(week * 7, week));
const wellKept = (untilDay: number, massKg = 1, zones = TOTE.zones): BinEvent[] => [
  ...weekly(untilDay, (day, week) => feed(day, (week % zones) + 1, massKg)),
  ...weekly(untilDay, (day) => look(day)),
];

const at = (events: readonly BinEvent[], today: number, bin: Partial<BinSetup> = {}, tempC = 18): Outlook =>
  outlookOf(scenario(events, bin, tempC), today, { checkIntervalDays: 7, resting: false });
const signal = (outlook: Outlook, id: string) => outlook.signals.find((each) => each.id === id);

describe('outlookOf() on a well-kept bin', () => {
  it('is settled on every day of twelve weeks: calm by default', () => {
    const bands = Array.from({ length: 84 }, (_, day) => at(wellKept(day), day).band);
    expect(new Set(bands)).toEqual(new Set(['settled']));
  });

  it.each<[string, Partial<BinSetup>, number, number]>([
    ['tray stack in a classroom', { kind: 'tray-stack', areaM2: 0.16, zones: 2, worms: { massKg: 0.6 } }, 0.5, 20],
    ['fabric bin in the shade', { kind: 'fabric', areaM2: 0.5, depthM: 0.5, bedWaterKg: 14 }, 1.2, 16],
    [
      'flow-through',
      {
        kind: 'flow-through',
        areaM2: 1,
        depthM: 0.6,
        worms: { massKg: 4 },
        bed: [
          { material: 'cardboard_corrugated', massKg: 10 },
          { material: 'castings', massKg: 40 },
        ],
        bedWaterKg: 25,
      },
      3,
      18,
    ],
  ])('a %s raises nothing to act on in twelve weeks', (_, bin, massKg, tempC) => {
    const water = (day: number): BinEvent[] =>
      weekly(day, (each): BinEvent => ({ day: each, type: 'water', massKg: (bin.areaM2 ?? 1) * 3 }));
    const bands = weekly(84, (day) => at([...wellKept(day, massKg, bin.zones), ...water(day)], day, bin, tempC).band);
    expect(bands.filter((band) => band === 'act')).toEqual([]);
  });

  it('gives no reasons and no remedies for what is settled', () => {
    for (const { reasons, remedies } of at(wellKept(60), 62).signals) expect([...reasons, ...remedies]).toEqual([]);
  });
});

describe('outlookOf() on trouble', () => {
  const heap = [...wellKept(70), feed(77, 2, 10, 0), look(77)];

  it('a bin given ten kilograms at once turns overfed, names that feeding, and less food helps', () => {
    const outlook = at(heap, 79);
    const overfed = signal(outlook, 'overfed');
    expect(outlook.band).toBe('act');
    expect(overfed).toMatchObject({ band: 'act', holdsNow: true });
    expect(overfed?.reasons.flatMap(({ entryIds }) => entryIds)).toContain('feeding-77');
    const best = overfed?.remedies[0];
    expect(best?.id).toBe('take-out-uneaten');
    expect(best?.probabilityAfter).toBeLessThan(best?.probabilityBefore ?? 0);
  });

  it('a deep heap of wet food in a small warm zone runs out of air, with the layer, the air and the feeding as reasons', () => {
    const outlook = at([...wellKept(70), feed(77, 2, 14, 0), look(77)], 78, {}, 24);
    const airless = signal(outlook, 'airless');
    expect(airless?.band).toBe('act');
    expect(airless?.zone).toBe(2);
    const deep = airless?.reasons.find(({ code }) => code === 'layer-deep');
    expect(Number(deep?.values.layerDepthM)).toBeGreaterThan(Number(deep?.values.airDepthM));
    expect(airless?.reasons.map(({ code }) => code)).toEqual(expect.arrayContaining(['layer-deep', 'fed-much', 'fed-without-bedding']));
    expect(airless?.remedies.length).toBeGreaterThan(0);
  });

  it('a bin fed nothing on a bed of castings turns hungry', () => {
    const outlook = at(weekly(60, look), 60, { bed: [{ material: 'castings', massKg: 20 }], bedWaterKg: 2 });
    expect(signal(outlook, 'hungry')).toMatchObject({ holdsNow: true });
    expect(signal(outlook, 'hungry')?.remedies[0]).toMatchObject({ id: 'feed-now', probabilityBefore: 1, probabilityAfter: 0 });
    expect(outlook.advice.hold).toBeNull();
    expect(outlook.advice.massKg).toBeGreaterThan(0);
  });

  it.each([
    ['cold', 2, 4.5],
    ['airless', 14, 18],
  ] as const)('offers no feeding to a hungry bin that is to be fed nothing today, being %s', (hold, bedWaterKg, tempC) => {
    const outlook = at(weekly(60, look), 60, { bed: [{ material: 'castings', massKg: 20 }], bedWaterKg }, tempC);
    expect(outlook.advice.hold).toBe(hold);
    expect(signal(outlook, 'hungry')?.remedies.map(({ id }) => id)).toEqual(['add-bedding']);
  });

  it('a bin nobody looks at turns unknown, and one look settles it', () => {
    const fed = weekly(70, (day, week) => feed(day, (week % 4) + 1, 1));
    const unseen = at(fed, 72);
    expect(unseen).toMatchObject({ band: 'unknown', lead: 'unseen' });
    expect(signal(unseen, 'unseen')?.remedies).toMatchObject([{ id: 'check', probabilityBefore: 1, probabilityAfter: 0 }]);
    expect(at([...fed, look(72)], 72).band).toBe('settled');
  });

  it('an old bin full of castings is due for harvest until somebody takes some', () => {
    const bin: Partial<BinSetup> = {
      ageDays: 200,
      bed: [
        { material: 'cardboard_corrugated', massKg: 3 },
        { material: 'castings', massKg: 40 },
      ],
    };
    const due = at(wellKept(60), 62, bin);
    expect(due).toMatchObject({ lead: 'harvest-due' });
    const remedy = signal(due, 'harvest-due')?.remedies[0];
    expect(remedy).toMatchObject({ id: 'harvest', probabilityAfter: 0 });
    expect(due.duties.find(({ kind }) => kind === 'harvest')?.dueDay).toBeLessThanOrEqual(62);
    const taken = at([...wellKept(60), { day: 62, type: 'harvest', massKg: remedy?.massKg ?? 0 }], 62, bin);
    expect(signal(taken, 'harvest-due')?.band).toBe('settled');
  });

  it('logging a large feeding changes the band at once', () => {
    expect(at(wellKept(77), 78).band).toBe('settled');
    expect(at([...wellKept(77), feed(78, 3, 10, 0)], 78).band).toBe('act');
  });

  it('a bad smell in a bin that the model finds well acts, with the entry as its only reason and no remedy promised for sure', () => {
    const outlook = at([...wellKept(77), { day: 78, type: 'check', smell: 'rotten', entryId: 'nose' }], 78);
    const airless = signal(outlook, 'airless');
    expect(airless).toMatchObject({ band: 'act', reasons: [{ code: 'smelled', entryIds: ['nose'] }] });
    expect(airless?.remedies.length).toBeGreaterThan(0);
    for (const remedy of airless?.remedies ?? []) {
      expect(remedy.probabilityBefore).toBe(1);
      expect(remedy.probabilityAfter).toBeGreaterThanOrEqual(0.3);
    }
    expect(outlook.advice.hold).toBe('smell');
  });

  it('a planned feeding that would be too much is seen coming, and holding it helps most', () => {
    const planned = [...wellKept(70), feed(75, 2, 10, 0)];
    const overfed = signal(at(planned, 73), 'overfed');
    expect(overfed).toMatchObject({ band: 'act', holdsNow: false, firstLikelyDay: 75 });
    expect(overfed?.remedies[0]).toMatchObject({ id: 'hold-next-feed', probabilityBefore: 1, probabilityAfter: 0, effortMinutes: 0 });
    expect(signal(at(planned, 69), 'overfed')?.band).toBe('watch');
  });
});

describe('outlookOf() as data', () => {
  const events = wellKept(30);

  it('has history to today and a forecast of fourteen days, joined at today', () => {
    const { history, forecast, day } = at(events, 32);
    expect(history.map((row) => row.day)).toEqual(Array.from({ length: 33 }, (_, each) => each));
    expect(forecast.map((row) => row.day)).toEqual(Array.from({ length: FORECAST_DAYS + 1 }, (_, each) => 32 + each));
    expect(forecast[0]).toEqual(history[day]);
  });

  it('is the same for the same input, and leaves its input alone', () => {
    const input = scenario(events);
    const before = JSON.stringify(input);
    const first = outlookOf(input, 32, { checkIntervalDays: 7, resting: false });
    expect(JSON.stringify(outlookOf(input, 32, { checkIntervalDays: 7, resting: false }))).toBe(JSON.stringify(first));
    expect(JSON.stringify(input)).toBe(before);
  });

  it('says the same with a shorter history', () => {
    const settings = { checkIntervalDays: 7, resting: false };
    const long = outlookOf(scenario(wellKept(60)), 62, settings);
    const short = outlookOf(scenario(wellKept(60)), 62, { ...settings, historyDays: 40 });
    expect(short.history.map((row) => row.day)).toEqual(Array.from({ length: 41 }, (_, each) => 22 + each));
    expect({ ...short, history: [] }).toEqual({ ...long, history: [] });
  });

  it('works on the first day, and refuses a day that is none', () => {
    expect(at([], 0).band).toBe('settled');
    for (const day of [-1, 0.5, Number.NaN]) expect(() => at([], day)).toThrow(RangeError);
  });

  it('advises what it then finds harmless: feeding it brings neither airless nor overfed', () => {
    const { advice } = at(wellKept(28), 35);
    expect(advice.massKg).toBeGreaterThan(0);
    const fed = advice.zones.map((zone) => feed(36, zone, advice.massKg / advice.zones.length, advice.beddingKg / advice.zones.length));
    for (const day of [36, 40, 45]) {
      const after = at([...wellKept(28), look(35), ...fed], day);
      expect([signal(after, 'airless')?.band, signal(after, 'overfed')?.band]).toEqual(['settled', 'settled']);
    }
  });

  it('takes many members through the same code', () => {
    const outlook = outlookOf({ ...scenario([...wellKept(70), feed(77, 2, 10, 0), look(77)]), members: 16 }, 78, {
      checkIntervalDays: 7,
      resting: false,
    });
    expect(signal(outlook, 'overfed')?.probability).toBeGreaterThan(0.6);
    expect(outlook.band).toBe('act');
  });

  it('names what to look at where members disagree, and nothing where there is one', () => {
    const events = [...weekly(70, (day, week) => feed(day, (week % 4) + 1, 1)), feed(77, 2, 5, 0)];
    const looked = (members: number) => outlookOf({ ...scenario(events), members }, 79, { checkIntervalDays: 7, resting: false });
    expect(looked(1).signals.every(({ ask }) => ask === null)).toBe(true);
    const asks = looked(64).signals.flatMap(({ ask }) => (ask ? [ask] : []));
    expect(asks.length).toBeGreaterThan(0);
    for (const { narrowedFrac } of asks) expect(narrowedFrac).toBeGreaterThan(0);
  });
});
