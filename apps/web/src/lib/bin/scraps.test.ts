import { describe, expect, it } from 'vitest';
import { drawScraps } from './scraps.ts';

describe('drawScraps()', () => {
  it('draws the same bin the same way each time, and another one otherwise', () => {
    expect(drawScraps('a', 0.9, 0, 0, 80, 40)).toEqual(drawScraps('a', 0.9, 0, 0, 80, 40));
    expect(drawScraps('a', 0.9, 0, 0, 80, 40)).not.toEqual(drawScraps('b', 0.9, 0, 0, 80, 40));
  });

  it('goes from pieces to crumbs to nothing', () => {
    const full = drawScraps('a', 1, 0, 0, 80, 40);
    const half = drawScraps('a', 0.5, 0, 0, 80, 40);
    expect(full.pieces.length).toBeGreaterThan(half.pieces.length);
    expect(half.pieces.length).toBeGreaterThan(0);
    const last = drawScraps('a', 0.1, 0, 0, 80, 40);
    expect(last.pieces).toEqual([]);
    expect(last.crumbs.length).toBeGreaterThan(0);
    expect(drawScraps('a', 0, 0, 0, 80, 40)).toEqual({ pieces: [], crumbs: [] });
  });

  it('stays inside its zone', () => {
    const { crumbs } = drawScraps('a', 0.15, 100, 50, 80, 40);
    for (const [x, y] of crumbs) {
      expect(x).toBeGreaterThanOrEqual(100);
      expect(x).toBeLessThanOrEqual(180);
      expect(y).toBeGreaterThanOrEqual(50);
      expect(y).toBeLessThanOrEqual(90);
    }
  });
});
