import { describe, expect, it } from 'vitest';
import { MOST_BARS, rowBars } from './row-bars.ts';

const rest = (count: number) => `${count} others`;
const row = (name: string, ...parts: number[]) => ({ id: name, name, parts });

describe('rowBars()', () => {
  it('D2: lays parts end to end as shares of the longest bar, and leaves out rows of nothing', () => {
    // 3 + 1 = 4 is the longest; 1 of 4 is a quarter.
    expect(rowBars([row('a', 3, 1), row('b', 0, 0), row('c', 0, 1)], rest)).toEqual([
      {
        ...row('a', 3, 1),
        sum: 4,
        shares: [
          { from: 0, length: 0.75 },
          { from: 0.75, length: 0.25 },
        ],
      },
      {
        ...row('c', 0, 1),
        sum: 1,
        shares: [
          { from: 0, length: 0 },
          { from: 0, length: 0.25 },
        ],
      },
    ]);
  });

  it('D2: shows nothing where there are not two to compare', () => {
    expect(rowBars([row('a', 3), row('b', 0)], rest)).toEqual([]);
  });

  it('D3: beyond twelve keeps the twelve largest in their order and adds the rest up, so that all bars are all rows', () => {
    const many = Array.from({ length: 15 }, (_, at) => row(`bin-${at}`, (at * 7) % 15, at === 4 ? 9 : 0));
    const bars = rowBars(many, rest);
    expect(bars).toHaveLength(MOST_BARS + 1);
    // 0 is left out; of the other fourteen the smallest two, 1 (bin-13) and 2 (bin-11), are the rest.
    expect(bars.at(-1)).toMatchObject({ name: '2 others', parts: [3, 0] });
    expect(bars.slice(0, -1).map(({ name }) => name)).toEqual(
      many.map(({ name }) => name).filter((n) => !['bin-0', 'bin-11', 'bin-13'].includes(n)),
    );
    const total = many.flatMap(({ parts }) => parts).reduce((sum, part) => sum + part, 0);
    expect(bars.reduce((sum, bar) => sum + bar.sum, 0)).toBe(total);
  });
});
