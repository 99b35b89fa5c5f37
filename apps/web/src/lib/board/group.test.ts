import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BoardBin, Flag } from '../bin/types.ts';
import { addDays } from '../format/days.ts';
import { helpsMost, inRows } from './group.ts';

interface Said {
  readonly signal?: Flag['signal'];
  readonly band?: BoardBin['band'];
  readonly day?: number;
  readonly remedy?: Flag['remedies'][number]['id'];
}
const bin = (code: string, { signal = 'hot', band = 'act', day = 0, remedy = 'shade' }: Said = {}): BoardBin =>
  ({
    id: code,
    code,
    band,
    notes: [],
    flags: band === 'settled' ? [] : [{ signal, band, holdsNow: true, sinceOn: addDays('2026-07-10', day), remedies: [{ id: remedy }] }],
  }) as unknown as BoardBin;
const many = (n: number, said: Said = {}) =>
  Array.from({ length: n }, (_, i) => bin(`${said.signal ?? 'hot'}-${said.day ?? 0}-${i}`, said));
const shape = (rows: ReturnType<typeof inRows>) => rows.map(({ group, bin: one }) => (group ? group.bins.length : one?.code));

describe('A.2: inRows() makes one row of what is widespread', () => {
  it('fourteen warm bins of sixty are one row, where the worst of them stood', () => {
    const list = [bin('dry', { signal: 'dry' }), ...many(14), bin('wet', { signal: 'wet', band: 'watch' })];
    expect(shape(inRows(list, 60))).toEqual(['dry', 14, 'wet']);
  });
  it('a fifth of the bins are widespread, fewer are not, and two never are', () => {
    expect(shape(inRows(many(12), 60))).toEqual([12]);
    expect(inRows(many(11), 60)).toHaveLength(11);
    expect(inRows(many(2), 5)).toHaveLength(2);
    expect(inRows(many(3), 5)).toHaveLength(1);
  });
  it('what began days apart has no one cause: the most that began together are the group', () => {
    const list = [...many(3, { day: 0 }), ...many(2, { day: 1 }), ...many(4, { day: 9 })];
    expect(shape(inRows(list, 10))).toEqual([5, 'hot-9-0', 'hot-9-1', 'hot-9-2', 'hot-9-3']);
  });
  it('is in act when one of them is, since the first of them, and says what helps most of them', () => {
    const list = [...many(2, { band: 'watch', day: 1 }), bin('first', { remedy: 'add-water' })];
    const [row] = inRows(list, 3);
    expect(row?.group).toMatchObject({ signal: 'hot', band: 'act', fromOn: '2026-07-10', holdsNow: true });
    expect(row?.group && helpsMost(row.group)).toEqual({ id: 'shade', times: 2 });
  });
  it('what is still to come is widespread by the day it is likely to begin', () => {
    const soon = many(3).map((one, i) => ({
      ...one,
      flags: one.flags.map((flag) => ({ ...flag, holdsNow: i > 0, sinceOn: i > 0 ? '2026-07-12' : null, firstLikelyOn: '2026-07-13' })),
    }));
    expect(inRows(soon, 3)[0]?.group).toMatchObject({ fromOn: '2026-07-12', holdsNow: false });
  });
  it('bins that nobody looked at stand alone', () => {
    expect(inRows(many(9, { signal: 'unseen', band: 'unknown' }), 9)).toHaveLength(9);
  });
  it('loses no bin and shows none twice, whatever the list', () => {
    const said = fc.record({
      signal: fc.constantFrom('hot', 'cold', 'airless', 'unseen'),
      band: fc.constantFrom('act', 'watch', 'unknown', 'settled'),
      day: fc.integer({ min: 0, max: 4 }),
    });
    fc.assert(
      fc.property(fc.array(said as fc.Arbitrary<Said>, { maxLength: 40 }), fc.nat(20), (all, well) => {
        const list = all.map((one, i) => bin(`B${i}`, one));
        const shown = inRows(list, list.length + well).flatMap(({ group, bin: one }) => group?.bins ?? (one ? [one] : []));
        expect(shown.map(({ id }) => id).sort()).toEqual(list.map(({ id }) => id).sort());
      }),
      { numRuns: 200, seed: 11 },
    );
  });
});
