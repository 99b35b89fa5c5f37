import { describe, expect, it } from 'vitest';
import { mergeFlags, SPEAKS_FOR } from './merge.ts';
import { SIGNALS } from './registry.ts';
import type { Band, SignalId, SignalOutlook } from './types.ts';

const flag = (id: SignalId, band: Band, entry = id): SignalOutlook => ({
  id,
  band,
  asked: band,
  partOf: null,
  probability: band === 'settled' ? 0 : 1,
  holdsNow: band !== 'settled',
  firstLikelyDay: null,
  sinceDay: null,
  zone: null,
  reasons: band === 'settled' ? [] : [{ code: 'food-in-hand', values: { zone: entry }, entryIds: [entry] }],
  remedies: [],
  ask: null,
});
const partsOf = (flags: readonly SignalOutlook[]) => mergeFlags(flags).map(({ id, partOf }) => [id, partOf]);

describe('mergeFlags()', () => {
  it('makes airless, overfed, wet and sour one flag with the reasons of all', () => {
    const merged = mergeFlags([flag('airless', 'act'), flag('overfed', 'act'), flag('wet', 'act'), flag('sour', 'watch')]);
    expect(merged.map(({ partOf }) => partOf)).toEqual([null, 'airless', 'airless', 'airless']);
    expect(merged[0]?.reasons.flatMap(({ entryIds }) => entryIds)).toEqual(['airless', 'overfed', 'wet', 'sour']);
  });

  it('never hides a flag behind a weaker or a settled one', () => {
    expect(partsOf([flag('overfed', 'act'), flag('airless', 'watch')])).toEqual([
      ['overfed', null],
      ['airless', null],
    ]);
    expect(partsOf([flag('overfed', 'act'), flag('airless', 'settled')])).toEqual([
      ['overfed', null],
      ['airless', null],
    ]);
  });

  it('lets the first cause speak for the whole chain', () => {
    expect(partsOf([flag('airless', 'act'), flag('wet', 'act'), flag('bedding-low', 'watch')])).toEqual([
      ['airless', null],
      ['wet', 'airless'],
      ['bedding-low', 'airless'],
    ]);
  });

  it('leaves flags of other causes alone', () => {
    expect(
      partsOf([flag('airless', 'act'), flag('hot', 'act'), flag('harvest-due', 'act'), flag('unseen', 'unknown')]).every(
        ([, part]) => part === null,
      ),
    ).toBe(true);
  });

  it('only ever puts a less urgent signal under a more urgent one', () => {
    for (const [speaker, parts] of SPEAKS_FOR)
      for (const part of parts) expect(SIGNALS[speaker].priority).toBeLessThan(SIGNALS[part].priority);
  });
});
