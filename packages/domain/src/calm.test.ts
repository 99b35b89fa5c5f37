import { describe, expect, it } from 'vitest';
import { keepBin } from './kept-site-cast.ts';

const WEEKS = 6;
const BINS = 10;

describe('a site of ten bins fed and kept as advised (short form; the season is in tests/calm)', () => {
  const kept = Array.from({ length: BINS }, (_, number) => keepBin(number, WEEKS * 7));

  it('raises at most one or two alerts a week', () => {
    expect(kept.flatMap(({ alerts }) => alerts).length / WEEKS).toBeLessThanOrEqual(1);
  });

  it('is never told to feed so much that food runs out of air, piles up or turns sour', () => {
    expect(kept.flatMap(({ alerts }) => alerts).filter(({ id }) => ['airless', 'overfed', 'sour', 'wet', 'ammonia'].includes(id))).toEqual(
      [],
    );
  });

  it('is told to feed every bin', () => {
    for (const { kind, fedKg } of kept) expect(fedKg, kind).toBeGreaterThan(1);
  });
});
