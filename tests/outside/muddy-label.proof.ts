/** How much mud a label bears (criteria B20): measured and printed; docs/field-trial.md says what it means for the trial. */
import { expect, test } from 'vitest';
import { seeded } from '../../apps/web/src/lib/shared/seeded.ts';
import { fieldsUnder, oneSplash, pictured, readEnds } from './muddy-label.ts';

const ADDRESS = 'https://bins.example.org/b/T1';
const TRIES = 200;
const MUDS = { 'wet soil (grey 60)': 60, 'dry soil (grey 160)': 160 };

test('B20: how many of 20 muddied labels are read', () => {
  const label = pictured(ADDRESS);
  const rows = Object.entries(MUDS).flatMap(([mud, grey]) =>
    (
      [
        ['one splash on 15 % of the label', (n: number) => oneSplash(label, 0.15, grey, seeded(`splash ${n}`))],
        ...[5, 10, 15].map(
          (f) => [`${f} of 100 fields on each code`, (n: number) => fieldsUnder(label, f, grey, seeded(`${f} ${n}`))] as const,
        ),
      ] as const
    ).map(([what, muddy]) => {
      const ends = Array.from({ length: TRIES }, (_, n) => readEnds(muddy(n)));
      const of20 = (read: number) => Math.round((200 * read) / TRIES) / 10;
      return {
        mud,
        what,
        oneCode: of20(ends.filter(([left]) => left === ADDRESS).length),
        eitherCode: of20(ends.filter((both) => both.includes(ADDRESS)).length),
      };
    }),
  );
  console.table(rows);
  expect(rows.filter((row) => row.what.startsWith('one splash')).map((row) => row.eitherCode)).toEqual([20, 20]);
});
