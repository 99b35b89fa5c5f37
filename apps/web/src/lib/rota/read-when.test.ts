import { DAY_PARTS as OF_THE_API, SKILLS as SKILLS_OF_THE_API } from '@middenry/contract';
import { expect, test } from 'vitest';
import { DAY_PARTS, joined, likingOn, readWhen, SKILLS, tickOf, ticksOn } from './read-when.ts';

const formOf = (entries: readonly (readonly [string, string])[]): FormData => {
  const form = new FormData();
  for (const [name, value] of entries) form.append(name, value);
  return form;
};

test('parts of the day and skills are those of the API', () => {
  expect(DAY_PARTS).toEqual(OF_THE_API);
  expect(SKILLS).toEqual(SKILLS_OF_THE_API);
});

test('readWhen() reads ticks, a new time away, a wish and caps', () => {
  const read = readWhen(
    formOf([
      ['time', tickOf({ weekday: 2, from: '08:00', to: '12:00' })],
      ['time', '6 17:00 21:00 glad'],
      ['time', '9 no time'],
      ['away', '2026-12-20 2027-01-03'],
      ['awayFrom', '2027-02-01'],
      ['awayTo', ''],
      ['skill', 'keys'],
      ['wish', '3'],
      ['per', 'month'],
      ['capPerWeek', '2'],
      ['capPerDay', ''],
    ]),
  );
  expect(read).toEqual({
    ok: true,
    body: {
      weekly: [
        { weekday: 2, from: '08:00', to: '12:00', liking: 'can' },
        { weekday: 6, from: '17:00', to: '21:00', liking: 'glad' },
      ],
      away: [
        { from: '2026-12-20', to: '2027-01-03' },
        { from: '2027-02-01', to: '2027-02-01' },
      ],
      skills: ['keys'],
      siteIds: [],
      wish: { count: 3, per: 'month' },
      capPerWeek: 2,
      capPerDay: null,
    },
  });
});

test.each([
  [[['awayTo', '2027-02-01']], 'awayFrom'],
  [
    [
      ['awayFrom', '2027-02-02'],
      ['awayTo', '2027-02-01'],
    ],
    'awayTo',
  ],
] as const)('readWhen() refuses an away time without a right order: %j', (entries, field) => {
  const read = readWhen(formOf(entries));
  expect(read.ok ? null : read.faults[0]!.field).toBe(field);
});

const on = (weekday: number, from: string, to: string, liking: 'glad' | 'can' | 'if-needed' = 'can') => ({ weekday, from, to, liking });

test.each([
  ['neighbours that overlap', [on(1, '08:00', '12:00'), on(1, '11:30', '14:00')], [on(1, '08:00', '14:00')]],
  ['neighbours that meet', [on(1, '12:00', '17:00'), on(1, '17:00', '21:00')], [on(1, '12:00', '21:00')]],
  ['all four in any order', DAY_PARTS.toReversed().map(({ from, to }) => on(3, from, to)), [on(3, '08:00', '21:00')]],
  ['other days', [on(2, '08:00', '12:00'), on(1, '11:30', '14:00')], [on(1, '11:30', '14:00'), on(2, '08:00', '12:00')]],
  ['the less liked of two that overlap', [on(1, '08:00', '12:00', 'glad'), on(1, '11:30', '14:00')], [on(1, '08:00', '14:00')]],
  [
    'nothing where liked ones only meet others',
    [on(1, '12:00', '17:00', 'glad'), on(1, '17:00', '21:00')],
    [on(1, '12:00', '17:00', 'glad'), on(1, '17:00', '21:00')],
  ],
])('joined() joins %s', (_name, times, together) => {
  expect(joined(times)).toEqual(together);
});

test('ticksOn() ticks again whatever parts were joined, and keeps a time of another kind apart', () => {
  const subsets = Array.from({ length: 2 ** DAY_PARTS.length }, (_, set) => DAY_PARTS.filter((_part, at) => set & (1 << at)));
  for (const parts of subsets) {
    const { chosen, others } = ticksOn(4, joined(parts.map(({ from, to }) => on(4, from, to))));
    // Morning and afternoon leave no gap for midday, so that it comes along.
    const covers = parts.length > 0 && parts.some(({ part }) => part === 'morning') && parts.some(({ part }) => part === 'afternoon');
    const expected = covers ? DAY_PARTS.filter((one) => parts.includes(one) || one.part === 'midday') : parts;
    expect([chosen.map(({ from }) => from), others]).toEqual([expected.map(({ from }) => from), []]);
  }
  const odd = on(4, '09:00', '10:30', 'glad');
  expect(ticksOn(4, [odd])).toMatchObject({ others: [odd], chosen: [odd] });
  expect(ticksOn(5, [odd]).chosen).toEqual([]);
});

test('how much a weekday is liked goes for all its ticks; with nothing chosen each keeps its own', () => {
  const ticks = [
    ['time', '2 08:00 12:00 can'],
    ['time', '2 17:00 21:00 glad'],
    ['time', '6 08:00 12:00 glad'],
  ] as const;
  const likings = (more: readonly (readonly [string, string])[]) => {
    const read = readWhen(formOf([...ticks, ...more]));
    return read.ok ? read.body.weekly?.map(({ liking }) => liking) : [];
  };
  expect(likings([])).toEqual(['can', 'glad', 'glad']);
  expect(likings([['liking-2', 'if-needed']])).toEqual(['if-needed', 'if-needed', 'glad']);
  expect(likings([['liking-6', 'strange']])).toEqual(['can', 'glad', 'glad']);
  const said = [
    { weekday: 2, from: '08:00', to: '12:00' },
    { weekday: 2, from: '17:00', to: '21:00', liking: 'glad' as const },
    { weekday: 6, from: '08:00', to: '12:00', liking: 'glad' as const },
  ];
  expect([likingOn(2, said), likingOn(6, said), likingOn(3, said)]).toEqual(['', 'glad', 'can']);
});
