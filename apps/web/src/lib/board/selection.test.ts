import { describe, expect, it } from 'vitest';
import type { Board } from '../bin/types.ts';
import { readSelection, selectBands, selectionQuery, selectPlaces } from './selection.ts';

const read = (query: string) => readSelection(new URLSearchParams(query));
const BOARD = {
  asOf: '',
  today: '',
  counts: { act: 1, watch: 1, unknown: 0, settled: 2 },
  aside: 1,
  bins: [
    { siteId: 'one', band: 'act', isAside: true },
    { siteId: 'one', band: 'settled', isAside: false },
    { siteId: 'two', band: 'watch', isAside: false },
    { siteId: 'two', band: 'settled', isAside: false },
  ],
  waiting: [{ siteId: 'one' }, { siteId: 'two' }],
  uncovered: [{ siteId: 'one' }, { siteId: 'two' }],
} as unknown as Board;

describe('readSelection()', () => {
  it('is the whole board, worst first, unless the address says more', () => {
    expect(read('')).toEqual({ order: 'worst', siteId: null, bands: [], isMine: false });
    expect(read('site=&order=')).toEqual(read(''));
  });
  it('takes only bands and orders that there are', () => {
    expect(read('band=act&band=green&band=unknown&order=prettiest').bands).toEqual(['act', 'unknown']);
    expect(read('order=prettiest').order).toBe('worst');
  });
  it.each(['?', '?site=one', '?mine=1', '?band=act&band=watch', '?site=a+b%26c&mine=1&band=settled&order=place'])(
    'keeps %s as it is',
    (query) => {
      expect(selectionQuery(read(query))).toBe(query);
    },
  );
});

describe('selectPlaces()', () => {
  it('counts anew what is left, its shifts and what is put aside', () => {
    const one = selectPlaces(BOARD, read('site=one'), []);
    expect([one.bins.length, one.counts, one.aside, one.uncovered.length]).toEqual([2, { act: 1, watch: 0, unknown: 0, settled: 1 }, 1, 1]);
    const mine = selectPlaces(BOARD, read('mine=1'), ['two']);
    expect([mine.bins.length, mine.counts, mine.aside, mine.uncovered]).toEqual([
      2,
      { act: 0, watch: 1, unknown: 0, settled: 1 },
      0,
      [{ siteId: 'two' }],
    ]);
  });
  it('shows nothing of a site that there is not, and everything when nothing is asked', () => {
    expect(selectPlaces(BOARD, read('site=three'), []).bins).toEqual([]);
    expect(selectPlaces(BOARD, read('band=act'), [])).toBe(BOARD);
  });
});

it('selectBands() holds the list to the bands asked for', () => {
  const bands = (query: string) => selectBands(BOARD.bins, read(query)).map(({ band }) => band);
  expect(bands('band=act&band=watch')).toEqual(['act', 'watch']);
  expect(bands('')).toHaveLength(4);
});
