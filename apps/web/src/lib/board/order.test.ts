import { describe, expect, it } from 'vitest';
import type { BoardBin } from '../bin/types.ts';
import { leadOnBoard } from './aside.ts';
import { byPlace, inOrder, readOrder, worstFirst } from './order.ts';

const bin = (code: string, part: Partial<BoardBin>): BoardBin =>
  ({
    id: code,
    code,
    name: code,
    siteId: 's1',
    siteName: 'One',
    kind: 'tote',
    placeOrder: 0,
    state: 'active',
    band: 'settled',
    flags: [],
    notes: [],
    isAside: false,
    lastFedOn: null,
    lastCheckedOn: null,
    ...part,
  }) as BoardBin;
const flag = (sinceOn: string) => [{ sinceOn }] as BoardBin['flags'];
const BINS = [
  bin('A1', { placeOrder: 1, lastFedOn: '2026-11-20' }),
  bin('B1', { siteId: 's2', placeOrder: 0, band: 'unknown', lastCheckedOn: '2026-10-01' }),
  bin('A3', { placeOrder: 3, band: 'act', flags: flag('2026-11-20') }),
  bin('A2', { placeOrder: 2, band: 'watch', flags: flag('2026-11-01'), lastFedOn: '2026-11-24' }),
  bin('A4', { placeOrder: 4, band: 'act', flags: flag('2026-11-10') }),
];
const codes = (bins: readonly BoardBin[]) => bins.map((b) => b.code);

describe('worstFirst()', () => {
  it('puts act before watch before unknown, longest-standing first, and leaves out what is well', () => {
    expect(codes(worstFirst(BINS))).toEqual(['A4', 'A3', 'A2', 'B1']);
  });
});

describe('A17: what is put aside', () => {
  const aside = bin('A5', { placeOrder: 5, band: 'act', flags: flag('2026-10-01'), isAside: true });
  it('is out of the worst and stays in its place', () => {
    expect(codes(worstFirst([...BINS, aside]))).not.toContain('A5');
    expect(codes(byPlace([...BINS, aside]))).toContain('A5');
    expect(codes(inOrder([...BINS, aside], 'place'))).toContain('A5');
  });
  it('lets the next flag of the same band speak', () => {
    const [hot, dry] = [
      { signal: 'hot', band: 'act' },
      { signal: 'dry', band: 'act' },
    ] as BoardBin['flags'];
    const notes = [{ kind: 'aside', signal: 'hot' }] as BoardBin['notes'];
    expect(leadOnBoard({ band: 'act', flags: [hot!, dry!], notes })?.signal).toBe('dry');
    expect(leadOnBoard({ band: 'act', flags: [hot!, dry!], notes: [] })?.signal).toBe('hot');
    expect(leadOnBoard({ band: 'act', flags: [hot!], notes })?.signal).toBe('hot');
  });
});

describe('byPlace()', () => {
  it('keeps sites together and never looks at the band', () => {
    expect(codes(byPlace(BINS))).toEqual(['A1', 'A2', 'A3', 'A4', 'B1']);
    expect(codes(byPlace(BINS.map((b) => ({ ...b, band: 'settled' as const }))))).toEqual(['A1', 'A2', 'A3', 'A4', 'B1']);
  });
});

describe('inOrder()', () => {
  it('lists every bin, the never fed ones first', () => {
    expect(codes(inOrder(BINS, 'fed'))).toEqual(['A3', 'A4', 'B1', 'A1', 'A2']);
  });
  it('readOrder() takes only orders it knows', () => {
    expect([readOrder('place'), readOrder('constructor'), readOrder(null)]).toEqual(['place', 'worst', 'worst']);
  });
});
