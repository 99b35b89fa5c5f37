import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BinEvent } from '../bin/scenario.ts';
import { uniformOf } from '../ensemble/chance.ts';
import { assess, type BandsBefore } from './assess.ts';
import { type BandBefore, bandOf, bandToShow, binBand } from './bands.ts';
import type { MembersDay, Reading } from './member-day.ts';
import { binWell, TOTE, WELL } from './signals-cast.ts';
import type { Band, SignalOutlook } from './types.ts';

const TODAY = 40;
const looked: BinEvent[] = [{ day: TODAY - 2, type: 'check', smell: 'earthy' }];

/** Days around today; `spoil` says what each member reads. */
function courseDays(
  members: number,
  spoil: (day: number, member: number) => Partial<Reading>,
  from = TODAY - 30,
  to = TODAY + 14,
): readonly MembersDay[] {
  return Array.from({ length: to - from + 1 }, (_, i) => ({
    day: from + i,
    weights: Array.from({ length: members }, () => 1 / members),
    readings: Array.from({ length: members }, (_each, member) => ({ ...WELL, ...spoil(from + i, member) })),
  }));
}

function assessed(
  days: readonly MembersDay[],
  events: readonly BinEvent[] = looked,
  bandsBefore: BandsBefore = {},
  today = TODAY,
): readonly SignalOutlook[] {
  return assess({
    setup: TOTE,
    checkIntervalDays: 7,
    resting: false,
    today,
    days,
    events,
    binOn: (day) => binWell(day),
    bandsBefore,
  });
}

const signal = (found: readonly SignalOutlook[], id: SignalOutlook['id']): SignalOutlook =>
  found.find((each) => each.id === id) as SignalOutlook;

describe('bandOf()', () => {
  it('watch from 0.30 and left below 0.20, act from 0.60 and left below 0.45', () => {
    const at = (share: number, before: Band) => bandOf('alert', { soon: share, near: share, overdue: 0, seen: false }, before);
    expect([0.29, 0.3, 0.59, 0.6].map((share) => at(share, 'settled'))).toEqual(['settled', 'watch', 'watch', 'act']);
    expect([0.19, 0.2, 0.3].map((share) => at(share, 'watch'))).toEqual(['settled', 'watch', 'watch']);
    expect([0.44, 0.45].map((share) => at(share, 'act'))).toEqual(['watch', 'act']);
  });

  it('does not flicker when a probability jitters round a mark (A15)', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0.5, max: 0.65, noNaN: true }), { minLength: 30, maxLength: 30 }), (shares) => {
        let band: Band = 'settled';
        let entered = 0;
        for (const share of shares) {
          const next = bandOf('alert', { soon: share, near: share, overdue: 0, seen: false }, band);
          if (next === 'act' && band !== 'act') entered++;
          band = next;
        }
        return entered <= 1;
      }),
      { numRuns: 100, seed: 7 },
    );
  });

  it('a duty is watch until it is overdue', () => {
    expect(bandOf('duty', { soon: 1, near: 1, overdue: 0, seen: false })).toBe('watch');
    expect(bandOf('duty', { soon: 1, near: 1, overdue: 1, seen: false })).toBe('act');
    expect(bandOf('duty', { soon: 1, near: 0, overdue: 0, seen: false })).toBe('settled');
  });
});

describe('bandToShow()', () => {
  const quiet = { seen: false, news: false };
  const at = (band: Band, asked: Band) => ({ band, asked });

  it('moves when two looks running ask for it, and as far as both of them go (A15)', () => {
    expect(bandToShow(at('settled', 'settled'), 'act', quiet)).toBe('settled');
    expect(bandToShow(at('settled', 'act'), 'act', quiet)).toBe('act');
    expect(bandToShow(at('settled', 'watch'), 'act', quiet)).toBe('watch');
    expect(bandToShow(at('act', 'act'), 'settled', quiet)).toBe('act');
    expect(bandToShow(at('act', 'settled'), 'watch', quiet)).toBe('watch');
    expect(bandToShow(at('watch', 'settled'), 'act', quiet)).toBe('watch');
  });

  it('shows at once what was seen, and rises at once on a day with an entry, but never falls so', () => {
    expect(bandToShow(at('settled', 'settled'), 'act', { seen: true, news: true })).toBe('act');
    expect(bandToShow(at('settled', 'settled'), 'watch', { seen: false, news: true })).toBe('watch');
    expect(bandToShow(at('act', 'act'), 'settled', { seen: false, news: true })).toBe('act');
    expect(bandToShow(undefined, 'act', quiet)).toBe('act');
  });

  it('no single look moves a band, whatever the figures do (A15)', () => {
    const rank = { settled: 0, unknown: 0, watch: 1, act: 2 };
    fc.assert(
      fc.property(fc.array(fc.constantFrom<Band>('settled', 'watch', 'act'), { minLength: 1, maxLength: 40 }), (asks) => {
        let before = at('settled', 'settled');
        for (const asked of asks) {
          const band = bandToShow(before, asked, quiet);
          const [was, now] = [rank[before.band], rank[band]];
          if (now > was) expect(Math.min(rank[before.asked], rank[asked])).toBe(now);
          if (now < was) expect(Math.max(rank[before.asked], rank[asked])).toBe(now);
          before = at(band, asked);
        }
      }),
      { numRuns: 200, seed: 5 },
    );
  });
});

describe('readings that jitter by a unit round the mark for 72 hours raise one alert at most (A15)', () => {
  const jittered: readonly [SignalOutlook['id'], 'tempC' | 'ph', number, number][] = [
    ['hot', 'tempC', 29, 1],
    ['cold', 'tempC', 5, 1],
    ['sour', 'ph', 5.5, 0.2],
  ];

  it.each(jittered)('%s by %s, written down every day or found by the model', (id, name, mark, unit) => {
    const field = { hot: 'bedPeakTempC', cold: 'bedTempC', sour: 'ph' }[id as 'hot'] as keyof Reading;
    for (let seed = 1; seed <= 100; seed++) {
      const value = (day: number) => mark + unit * (2 * uniformOf(seed, day) - 1);
      for (const written of [true, false]) {
        const read = (today: number): BinEvent[] =>
          written
            ? Array.from({ length: 4 }, (_, i): BinEvent => ({ day: TODAY + i, type: 'check', [name]: value(TODAY + i) })).filter(
                ({ day }) => day <= today,
              )
            : [];
        let entered = 0;
        let before: Partial<Record<SignalOutlook['id'], BandBefore>> = {};
        for (let today = TODAY; today < TODAY + 4; today++) {
          const days = courseDays(1, (day) => (!written && day >= TODAY && day <= today ? { [field]: value(day) } : {}));
          const found = signal(assessed(days, [...looked, ...read(today)], before, today), id);
          if (found.band === 'act' && before[id]?.band !== 'act') entered++;
          before = { [id]: { band: found.band, asked: found.asked } };
        }
        expect(entered, `${id} ${seed}`).toBeLessThanOrEqual(1);
      }
    }
  });
});

describe('binBand()', () => {
  it('act, else unknown, else watch, else settled', () => {
    const of = (...bands: Band[]) =>
      binBand(bands.map((band) => ({ id: band === 'unknown' ? ('unseen' as const) : ('wet' as const), band }))).band;
    expect(of('watch', 'unknown', 'act')).toBe('act');
    expect(of('watch', 'unknown')).toBe('unknown');
    expect(of('watch', 'settled')).toBe('watch');
    expect(binBand([{ id: 'wet', band: 'settled' }])).toEqual({ band: 'settled', lead: null });
  });
});

describe('assess() with one member', () => {
  it('is settled throughout when nothing is wrong', () => {
    expect(assessed(courseDays(1, () => ({}))).every(({ band, reasons }) => band === 'settled' && reasons.length === 0)).toBe(true);
  });

  it.each([
    [0, 'act'],
    [2, 'act'],
    [3, 'watch'],
    [7, 'watch'],
    [8, 'settled'],
  ])('hot beginning in %i days is %s', (inDays, band) => {
    const found = signal(assessed(courseDays(1, (day) => (day >= TODAY + inDays ? { bedPeakTempC: 30 } : {}))), 'hot');
    expect(found.band).toBe(band);
    expect(found.firstLikelyDay).toBe(TODAY + inDays);
  });

  it('airless needs two days running', () => {
    const lone = (day: number) => ((day - TODAY) % 2 === 0 ? { airlessFrac: 0.5 } : {});
    expect(signal(assessed(courseDays(1, lone)), 'airless').band).toBe('settled');
    expect(signal(assessed(courseDays(1, (day) => (day >= TODAY - 1 ? { airlessFrac: 0.5 } : {}))), 'airless')).toMatchObject({
      band: 'act',
      holdsNow: true,
    });
  });

  it('trouble that is over by itself before anybody can help is watched, unless it must be answered within a day', () => {
    const until = (last: number, over: Partial<Reading>) => courseDays(1, (day) => (day >= TODAY - 3 && day <= last ? over : {}));
    expect(signal(assessed(until(TODAY + 1, { airlessFrac: 0.5 })), 'airless').band).toBe('watch');
    expect(signal(assessed(until(TODAY + 2, { airlessFrac: 0.5 })), 'airless').band).toBe('act');
    expect(signal(assessed(until(TODAY + 1, { bedPeakTempC: 30 })), 'hot').band).toBe('act');
  });

  it('a reading that jitters inside the dead band is one stretch', () => {
    const days = courseDays(1, (day) => ({ bedPeakTempC: day < TODAY - 3 ? 20 : day % 2 === 0 ? 29.4 : 28.4 }));
    expect(signal(assessed(days), 'hot')).toMatchObject({ band: 'act', holdsNow: true, probability: 1 });
  });

  it('a bad smell acts at once, whatever the model thinks', () => {
    const events: BinEvent[] = [{ day: TODAY, type: 'check', smell: 'rotten', entryId: 'entry-nose' }];
    const found = assessed(
      courseDays(1, () => ({})),
      events,
    );
    expect(found[0]).toMatchObject({ id: 'airless', band: 'act', reasons: [{ code: 'smelled', entryIds: ['entry-nose'] }] });
  });

  it('harvest-due is watch when due and act when three weeks late', () => {
    const from = (day: number) => (each: number) => (each >= day ? { castingsKgWb: 30 } : {});
    expect(signal(assessed(courseDays(1, from(TODAY - 20))), 'harvest-due').band).toBe('watch');
    expect(signal(assessed(courseDays(1, from(TODAY - 21))), 'harvest-due').band).toBe('act');
  });

  it('a bin nobody looked at for twice its interval is never settled, in 1,000 random histories (A5)', () => {
    const day = fc.integer({ min: 0, max: TODAY });
    const event: fc.Arbitrary<BinEvent> = fc.oneof(
      day.map((on): BinEvent => ({ day: on, type: 'check' })),
      day.map((on): BinEvent => ({ day: on, type: 'check', tempC: 18 })),
      day.map((on): BinEvent => ({ day: on, type: 'loosen', zone: 0 })),
    );
    const found = { stale: 0, seen: 0 };
    fc.assert(
      fc.property(fc.array(event, { maxLength: 6 }), fc.integer({ min: 1, max: 14 }), (events, checkIntervalDays) => {
        const log = [...events].sort((a, b) => a.day - b.day);
        const days = courseDays(1, () => ({}));
        const keeping = { setup: TOTE, checkIntervalDays, resting: false, today: TODAY, binOn: (on: number) => binWell(on) };
        const { band } = binBand(assess({ ...keeping, days, events: log, bandsBefore: {} }));
        const looks = log.filter(({ type }) => type === 'check').map((one) => one.day);
        const since = TODAY - Math.max(0, ...looks);
        const stale = since > 2 * checkIntervalDays;
        found[stale ? 'stale' : 'seen'] += 1;
        return band === (stale ? 'unknown' : 'settled');
      }),
      { numRuns: 1000, seed: 8 },
    );
    expect(Math.min(found.stale, found.seen)).toBeGreaterThan(200);
  });

  it('trouble shows whether somebody looked or not', () => {
    const warm = courseDays(1, () => ({ bedPeakTempC: 30 }));
    for (const lastLook of [0, 20, TODAY]) expect(binBand(assessed(warm, [{ day: lastLook, type: 'check' }])).band).toBe('act');
  });

  it('lists the most urgent first', () => {
    const found = assessed(courseDays(1, () => ({ bedPeakTempC: 30, ph: 5, beddingFracOfSolids: 0.05 })));
    expect(found.slice(0, 3).map(({ id, band }) => [id, band])).toEqual([
      ['hot', 'act'],
      ['sour', 'act'],
      ['bedding-low', 'act'],
    ]);
  });
});

describe('assess() with many members', () => {
  it.each([
    [2, 'settled'],
    [3, 'watch'],
    [5, 'watch'],
    [6, 'act'],
  ])('hot in %i of 10 members within a week is %s', (share, band) => {
    const found = signal(
      assessed(courseDays(10, (day, member) => (member < share && day >= TODAY + 5 ? { bedPeakTempC: 30 } : {}))),
      'hot',
    );
    expect(found.probability).toBeCloseTo(share / 10, 12);
    expect(found.band).toBe(band);
  });

  it('keeps the band of the last look inside its dead band', () => {
    const days = courseDays(10, (day, member) => (member < 5 && day >= TODAY ? { bedPeakTempC: 30 } : {}));
    expect(signal(assessed(days), 'hot').band).toBe('watch');
    expect(signal(assessed(days, looked, { hot: 'act' }), 'hot').band).toBe('act');
    expect(signal(assessed(days, looked, { hot: { band: 'settled', asked: 'settled' } }), 'hot')).toMatchObject({
      band: 'settled',
      asked: 'watch',
    });
    expect(signal(assessed(days, looked, { hot: { band: 'settled', asked: 'watch' } }), 'hot').band).toBe('watch');
  });
});
