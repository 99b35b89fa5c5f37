import { describe, expect, it } from 'vitest';
import { defaultRange } from './default-range.ts';

describe('defaultRange()', () => {
  it.each([
    ['2026-11-25', '2026-09-01'],
    ['2026-01-31', '2025-11-01'],
    ['2026-03-01', '2026-01-01'],
    ['2026-12-31', '2026-10-01'],
  ])('on %s starts on %s', (today, from) => {
    expect(defaultRange(today)).toEqual({ from, to: today });
  });
});
