import { DAY_PARTS as OF_THE_API, SKILLS as SKILLS_OF_THE_API } from '@middenry/contract';
import { expect, test } from 'vitest';
import { DAY_PARTS, readWhen, SKILLS, tickOf } from './read-when.ts';

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
