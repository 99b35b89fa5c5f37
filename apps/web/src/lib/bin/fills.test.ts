import { describe, expect, it } from 'vitest';
import { countWord, fillsOf } from './fills.ts';

const containers = [
  { name: 'caddy', fullKg: 1.5 },
  { name: 'cup', fullKg: 0.2 },
  { name: 'barrel', fullKg: 12 },
];

describe('fillsOf()', () => {
  it('counts in halves, never more than there is to give, fewest first', () => {
    expect(fillsOf(containers, 2.4)).toEqual([{ name: 'caddy', count: 1.5 }]);
    expect(fillsOf(containers, 1.1)).toEqual([
      { name: 'caddy', count: 0.5 },
      { name: 'cup', count: 5.5 },
    ]);
    expect(fillsOf(containers, 3)).toEqual([{ name: 'caddy', count: 2 }]);
  });

  it('leaves out what would not be half full or would be filled too often', () => {
    expect(fillsOf(containers, 0.05)).toEqual([]);
    for (const { count } of fillsOf(containers, 6)) expect(count).toBeLessThanOrEqual(6);
  });
});

describe('countWord()', () => {
  it('writes a half as people do', () => expect([0.5, 1, 1.5, 3].map(countWord)).toEqual(['½', '1', '1½', '3']));
});
