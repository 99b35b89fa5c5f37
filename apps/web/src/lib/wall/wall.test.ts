import { describe, expect, it } from 'vitest';
import type { Board, BoardBin } from '../bin/types.ts';
import { ageMs, isLive, NOT_LIVE_AFTER_MS, oldPicture, type Reading } from './fresh.ts';
import { capHeightMm, farthestM, type Glass, letterPx, mmPerPx, widthEm } from './letters.ts';
import { planOnePage, planWall } from './plan.ts';
import { isSetUp, readWallSettings } from './settings.ts';

const inch43: Glass = { widthPx: 1920, heightPx: 1080, diagonalInch: 43 };
const inch32: Glass = { widthPx: 1920, heightPx: 1080, diagonalInch: 32 };
const WINDOW = { widthPx: 1920, heightPx: 1080 };
const codes = (n: number) => Array.from({ length: n }, (_, i) => `A${10 + i}`);

describe('A9: letters on a wall', () => {
  it('a capital is 2 D tan(10 arc minutes) high', () => {
    expect(capHeightMm(3)).toBeCloseTo(17.45, 2);
    expect(capHeightMm(5)).toBeCloseTo(29.09, 2);
    expect(capHeightMm(6)).toBeCloseTo(2 * capHeightMm(3), 9);
  });
  it('a pixel is as large as the glass makes it', () => {
    expect(mmPerPx(inch43)).toBeCloseTo(0.4958, 4);
    expect(mmPerPx(inch32)).toBeCloseTo(0.369, 3);
  });
  // The criterion's sizes assume capitals of 0.7 em; ours are 0.672 em, so type is a little larger for the same height.
  it.each([
    [3, inch43, 50],
    [3, inch32, 68],
    [5, inch43, 84],
    [5, inch32, 113],
  ] as const)('at %d m its size is the criterion’s, for a face of lower capitals: case %#', (distanceM, glass, asked) => {
    const px = letterPx(distanceM, glass);
    expect(Math.abs(px - (asked * 0.7) / 0.672)).toBeLessThanOrEqual(1.2);
    expect(px * 0.672 * mmPerPx(glass)).toBeGreaterThanOrEqual(capHeightMm(distanceM));
    expect(farthestM(px, glass)).toBeGreaterThanOrEqual(distanceM);
  });
  it('a code is never taken for narrower than it is', () => {
    // As a browser measured them at 1000 px, the heaviest weight.
    for (const [code, em] of [
      ['A12', 1.724],
      ['S10', 1.724],
      ['F10', 1.679],
      ['W', 0.893],
      ['M', 0.866],
    ] as const)
      expect(widthEm(code)).toBeGreaterThanOrEqual(em);
  });
});

describe('A9: tiles on a wall', () => {
  it('sixty bins fit 1920 x 1080 read from 3 m on 43 inches, 10 x 6, the list below', () => {
    const plan = planWall({ ...WINDOW, codes: codes(60), codePx: letterPx(3, inch43) });
    expect(plan).toMatchObject({ columns: 10, rows: 6, pages: 1, list: 'below', tooLarge: false });
  });
  it('few bins leave the list beside them', () => {
    expect(planWall({ ...WINDOW, codes: codes(14), codePx: letterPx(3, inch43) })).toMatchObject({ pages: 1, list: 'beside' });
  });
  it('what cannot fit at 5 m on 32 inches goes on further pages, or smaller on one', () => {
    const needs = { ...WINDOW, codes: codes(60), codePx: letterPx(5, inch32) };
    const fewer = planWall(needs);
    expect(fewer.pages).toBeGreaterThan(1);
    expect(fewer.perPage * fewer.pages).toBeGreaterThanOrEqual(60);
    expect(fewer.codePx).toBe(needs.codePx);
    const all = planOnePage(needs);
    expect(all.pages).toBe(1);
    expect(all.codePx).toBeLessThan(needs.codePx);
    expect(farthestM(all.codePx, inch32)).toBeLessThan(5);
  });
  it('says so when no tile can hold the code at all', () => {
    const plan = planWall({ widthPx: 800, heightPx: 600, codes: ['LONG1'], codePx: 900 });
    expect(plan.tooLarge).toBe(true);
    expect(plan.codePx).toBeLessThan(900);
  });
  it('every plan holds every bin, no tile is under 178 x 146, and each code fits its own', () => {
    for (const count of [0, 1, 5, 14, 15, 37, 60, 61, 200])
      for (const codePx of [30, 53, 71, 118, 200])
        for (const plan of [
          planWall({ ...WINDOW, codes: codes(count), codePx }),
          planOnePage({ ...WINDOW, codes: codes(count), codePx }),
        ]) {
          expect(plan.perPage * plan.pages, `${count} at ${codePx}`).toBeGreaterThanOrEqual(count);
          const width = (1920 - 80 - (plan.list === 'beside' ? 520 : 0)) / plan.columns;
          const height = (1080 - 100 - (plan.list === 'below' ? 104 : 0)) / plan.rows;
          expect(width).toBeGreaterThanOrEqual(178);
          expect(height).toBeGreaterThanOrEqual(146);
          expect(Math.max(0, ...codes(count).map(widthEm)) * plan.codePx + 24).toBeLessThanOrEqual(width);
        }
  });
});

describe('A10: how old the picture is', () => {
  const at = (clockMs: number, steadyMs = clockMs): Reading => ({ clockMs, steadyMs });
  it('is told by whichever clock went on further', () => {
    expect(ageMs(at(1000), at(61_000))).toBe(60_000);
    expect(ageMs(at(7_200_000, 0), at(3_600_000, 90_000))).toBe(90_000);
    expect(ageMs(at(0), at(8 * 3_600_000, 10))).toBe(8 * 3_600_000);
  });
  it('is live for five minutes and no longer', () => {
    expect(isLive(at(0), at(NOT_LIVE_AFTER_MS))).toBe(true);
    expect(isLive(at(0), at(NOT_LIVE_AFTER_MS + 1))).toBe(false);
  });
  it('nothing of an old picture is settled', () => {
    const bins = (['settled', 'act', 'watch', 'unknown', 'settled'] as const).map((band) => ({ band }) as BoardBin);
    const old = oldPicture({ bins, counts: { act: 1, watch: 1, unknown: 1, settled: 2 } } as Board);
    expect(old.bins.map(({ band }) => band)).toEqual(['unknown', 'act', 'watch', 'unknown', 'unknown']);
    expect(old.counts).toEqual({ act: 1, watch: 1, unknown: 3, settled: 0 });
  });
});

describe('readWallSettings()', () => {
  const read = (query: string) => readWallSettings(new URLSearchParams(query));
  it('takes either decimal mark and feet', () => {
    expect(read('inch=43&m=2,5&show=fit')).toEqual({ diagonalInch: 43, distanceM: 2.5, show: 'fit' });
    expect(read('inch=43&ft=10&show=all').distanceM).toBeCloseTo(3.048, 6);
  });
  it('takes nothing that cannot be', () => {
    for (const query of ['', 'inch=0&m=0', 'inch=1e9&m=abc', 'inch=-43&m=-3', 'inch=43', 'inch=43&m=3&show=other'])
      expect(isSetUp(read(query)), query).toBe(false);
    expect(isSetUp(read('inch=43&m=3&show=fit'))).toBe(true);
  });
});
