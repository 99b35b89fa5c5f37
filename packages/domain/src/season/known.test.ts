import { expect, test } from 'vitest';
import { shareKnown, sumKnown } from './known.ts';

test('a sum with something that was not counted is not known, not smaller', () => {
  expect([sumKnown(1, 2, 3), sumKnown(1, null, 3), sumKnown()]).toEqual([6, null, 0]);
});

test('a share of nothing or of what is not known is none', () => {
  expect([shareKnown(1, 4), shareKnown(0, 4), shareKnown(1, 0), shareKnown(null, 4), shareKnown(1, null)]).toEqual([
    ...[0.25, 0, null, null, null],
  ]);
});
