import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { weekdayOf } from '../rota/rules.ts';
import { type GatherScene, gatherShifts, urgencyOf } from './shifts.ts';
import { DUTY_MINUTES, type DueDuty } from './shifts-types.ts';
import { DUTY_KINDS, type DutyKind } from './types.ts';

const duty = (binId: string, kind: DutyKind, rest: Partial<DueDuty> = {}): DueDuty => ({
  binId,
  kind,
  fromDate: '2027-05-03',
  dueDate: '2027-05-08',
  overdueDate: '2027-05-12',
  actNow: false,
  ...rest,
});

/** Open on Mondays, Wednesdays and Saturdays from nine to noon; the third of May is a Monday. */
const scene = (duties: readonly DueDuty[], rest: Partial<GatherScene> = {}): GatherScene => ({
  duties,
  bins: [
    { id: 'A1', siteId: 'orchard', area: 'shed' },
    { id: 'A2', siteId: 'orchard', area: 'shed' },
    { id: 'B1', siteId: 'orchard', area: 'wall' },
    { id: 'Y1', siteId: 'yard', area: 'yard' },
  ],
  hours: ['orchard', 'yard'].map((siteId) => ({
    siteId,
    open: [1, 3, 6].map((weekday) => ({ weekday, fromMinute: 540, toMinute: 720 })),
    closed: [],
  })),
  standing: [],
  settings: { today: '2027-05-03', lastDate: '2027-05-30', mostMinutes: 60, mostPlaces: 2, leastPlaces: 1 },
  ...rest,
});

const shown = (given: GatherScene): string[] =>
  gatherShifts(given).shifts.map(
    ({ siteId, localDate, duties }) => `${siteId} ${localDate}: ${duties.map(({ binId, kind }) => `${binId} ${kind}`).join(', ')}`,
  );

describe('gatherShifts()', () => {
  it('gathers what can wait on the last open day in time, site by site, bin by bin', () => {
    expect(shown(scene([duty('B1', 'check'), duty('A1', 'feed'), duty('A2', 'check'), duty('A1', 'check'), duty('Y1', 'feed')]))).toEqual([
      'orchard 2027-05-08: A1 check, A1 feed, A2 check, B1 check',
      'yard 2027-05-08: Y1 feed',
    ]);
  });

  it('does what is urgent on the first open day, and takes along what may be done then', () => {
    const given = scene([duty('A1', 'feed'), duty('A2', 'loosen', { actNow: true }), duty('B1', 'check', { fromDate: '2027-05-06' })]);
    expect(shown(given)).toEqual(['orchard 2027-05-03: A2 loosen, A1 feed', 'orchard 2027-05-08: B1 check']);
    expect(gatherShifts(given).shifts.map(({ urgency }) => urgency)).toEqual([3, 1]);
  });

  it('never puts feed and harvest of one bin on one day', () => {
    const given = scene([duty('A1', 'feed'), duty('A1', 'harvest'), duty('A2', 'feed')]);
    expect(shown(given)).toEqual(['orchard 2027-05-05: A1 harvest', 'orchard 2027-05-08: A1 feed, A2 feed']);
    const once = scene([duty('A1', 'feed'), duty('A1', 'harvest')], { settings: { ...given.settings, lastDate: '2027-05-04' } });
    expect(gatherShifts(once).unplaced).toEqual([{ duty: duty('A1', 'harvest'), reason: 'feed-or-harvest' }]);
  });

  it('keeps to open days: a holiday moves work to the day before, and says when there is none', () => {
    const closed = (from: string, to: string): GatherScene['hours'] => scene([]).hours.map((site) => ({ ...site, closed: [{ from, to }] }));
    expect(shown(scene([duty('A1', 'feed')], { hours: closed('2027-05-06', '2027-05-09') }))).toEqual(['orchard 2027-05-05: A1 feed']);
    const late = gatherShifts(scene([duty('A1', 'feed')], { hours: closed('2027-05-03', '2027-05-09') })).shifts[0];
    expect([late?.localDate, late?.duties[0]?.late]).toEqual(['2027-05-10', true]);
    expect(gatherShifts(scene([duty('A1', 'feed')], { hours: closed('2027-05-01', '2027-06-01') })).unplaced[0]?.reason).toBe(
      'site-closed',
    );
  });

  it('fills a standing shift before it makes a new one, and leaves its time and places', () => {
    const standing = [
      {
        id: 'wed',
        siteId: 'orchard',
        localDate: '2027-05-05',
        fromMinute: 600,
        minutes: 30,
        places: 1,
        duties: [{ binId: 'A1', kind: 'feed' as const }],
      },
    ];
    const { shifts } = gatherShifts(
      scene([duty('A1', 'check'), duty('A2', 'check'), duty('A2', 'feed'), duty('A1', 'harvest')], { standing }),
    );
    expect(shifts[0]).toMatchObject({ standingId: 'wed', localDate: '2027-05-05', fromMinute: 600, minutes: 30, places: 1 });
    expect(shifts.map(({ duties }) => duties.map(({ binId, kind }) => `${binId} ${kind}`))).toEqual([
      ['A1 check', 'A2 check', 'A2 feed'],
      ['A1 harvest'],
    ]);
  });

  it('makes no shift longer than asked: more people, then another day', () => {
    const harvests = ['A1', 'A2', 'B1'].map((id) => duty(id, 'harvest'));
    const { shifts } = gatherShifts(scene(harvests));
    expect(shifts.map(({ localDate, places, minutes, duties }) => [localDate, places, minutes, duties.length])).toEqual([
      ['2027-05-05', 1, 45, 1],
      ['2027-05-08', 2, 45, 2],
    ]);
    const short = scene(harvests, { settings: { ...scene([]).settings, mostMinutes: 30, mostPlaces: 1 } });
    expect(gatherShifts(short).unplaced.map(({ reason }) => reason)).toEqual(['too-long', 'too-long', 'too-long']);
  });

  it('refuses a bin that nobody knows', () => {
    expect(() => gatherShifts(scene([duty('Z9', 'feed')]))).toThrow('Cannot gather duties as every bin must be known: current value is Z9');
  });
});

describe('urgencyOf()', () => {
  it.each([
    ['2027-05-08', false, 1],
    ['2027-05-09', false, 2],
    ['2027-05-13', false, 3],
    ['2027-05-03', true, 3],
  ])('on %s, asked for at once %s: %i', (date, actNow, urgency) => {
    expect(urgencyOf(duty('A1', 'feed', { actNow }), date)).toBe(urgency);
  });
});

describe('laws of gathered shifts', () => {
  const date = (from: number, to: number) => fc.integer({ min: from, max: to }).map((day) => `2027-05-${String(day).padStart(2, '0')}`);
  const anyDuty: fc.Arbitrary<DueDuty> = fc
    .record({
      binId: fc.constantFrom('A1', 'A2', 'B1', 'Y1'),
      kind: fc.constantFrom(...DUTY_KINDS.filter((kind) => kind !== 'rest')),
      dates: fc.tuple(date(1, 25), date(1, 25), date(1, 25)),
      actNow: fc.boolean(),
    })
    .map(({ dates, ...rest }) => {
      const [fromDate = '', dueDate = '', overdueDate = ''] = [...dates].sort();
      return { ...rest, fromDate, dueDate, overdueDate };
    });
  const anyScene = fc
    .record({
      duties: fc.uniqueArray(anyDuty, { maxLength: 14, selector: ({ binId, kind }) => `${binId} ${kind}` }),
      mostMinutes: fc.constantFrom(30, 45, 90),
      mostPlaces: fc.integer({ min: 1, max: 3 }),
      closed: fc.tuple(date(3, 20), date(3, 20)),
    })
    .map(({ duties, mostMinutes, mostPlaces, closed: [from, to] }) =>
      scene(duties, {
        hours: scene([]).hours.map((site) => ({ ...site, closed: [{ from, to }] })),
        settings: { today: '2027-05-03', lastDate: '2027-05-26', mostMinutes, mostPlaces, leastPlaces: 1 },
      }),
    );
  const isOpen = ({ hours }: GatherScene, siteId: string, localDate: string): boolean =>
    hours.some(
      (site) =>
        site.siteId === siteId &&
        site.open.some(({ weekday }) => weekday === weekdayOf(localDate)) &&
        !site.closed.some(({ from, to }) => from <= localDate && localDate <= to),
    );

  it('places each duty once or says why not, on open days, not too early, not too long', () => {
    fc.assert(
      fc.property(anyScene, (given) => {
        const { shifts, unplaced } = gatherShifts(given);
        const nameOf = ({ binId, kind }: DueDuty): string => `${binId} ${kind}`;
        const all = [...shifts.flatMap(({ duties }) => duties), ...unplaced.map((one) => one.duty)].map(nameOf);
        expect([...all].sort()).toEqual(given.duties.map(nameOf).sort());
        for (const { siteId, localDate, duties, minutes, places } of shifts) {
          expect(isOpen(given, siteId, localDate)).toBe(true);
          expect(minutes).toBeLessThanOrEqual(given.settings.mostMinutes);
          expect(minutes * places).toBeGreaterThanOrEqual(duties.reduce((sum, { kind }) => sum + DUTY_MINUTES[kind].value, 0));
          expect(duties.filter((one) => !one.actNow && one.fromDate > localDate)).toEqual([]);
        }
      }),
      { numRuns: 1000, seed: 20270605 },
    );
  });

  it('feeds and harvests no bin on one day, and is late only where every open day in time was full or taken', () => {
    fc.assert(
      fc.property(anyScene, (given) => {
        const { shifts } = gatherShifts(given);
        const onDay = (localDate: string, binId: string, kind: string): boolean =>
          shifts.some((shift) => shift.localDate === localDate && shift.duties.some((one) => one.binId === binId && one.kind === kind));
        for (const { localDate, duties } of shifts)
          for (const { binId, kind } of duties) expect(kind === 'feed' && onDay(localDate, binId, 'harvest')).toBe(false);
        const lateOnes = shifts.flatMap(({ duties }) => duties).filter((one) => one.late && one.dueDate >= given.settings.today);
        for (const one of lateOnes) {
          const site = one.binId === 'Y1' ? 'yard' : 'orchard';
          const start = one.actNow || one.fromDate < given.settings.today ? given.settings.today : one.fromDate;
          for (let day = Number(start.slice(-2)); day <= Number(one.dueDate.slice(-2)); day += 1) {
            const localDate = `2027-05-${String(day).padStart(2, '0')}`;
            if (!isOpen(given, site, localDate)) continue;
            const there = shifts.find((shift) => shift.siteId === site && shift.localDate === localDate);
            const work = there?.duties.reduce((sum, { kind }) => sum + DUTY_MINUTES[kind].value, 0) ?? 0;
            // Two walks of five minutes are the most that a shift of this site can need.
            const isFull = work + DUTY_MINUTES[one.kind].value + 10 > given.settings.mostMinutes * given.settings.mostPlaces;
            const isTaken = onDay(localDate, one.binId, 'feed') || onDay(localDate, one.binId, 'harvest');
            expect(isFull || isTaken).toBe(true);
          }
        }
      }),
      { numRuns: 1000, seed: 20270606 },
    );
  });
});
