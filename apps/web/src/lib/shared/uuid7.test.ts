import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { uuid7 } from './uuid7.ts';

describe('uuid7()', () => {
  it('is a UUIDv7 that carries its time and never repeats', () => {
    const made = Array.from({ length: 1000 }, () => uuid7(1_795_596_000_123));
    for (const id of made) expect(z.uuidv7().safeParse(id).success).toBe(true);
    expect(new Set(made).size).toBe(1000);
    expect(Number.parseInt((made[0] ?? '').replace('-', '').slice(0, 12), 16)).toBe(1_795_596_000_123);
  });

  it('sorts by time', () => {
    expect(uuid7(1000) < uuid7(2000)).toBe(true);
  });
});
