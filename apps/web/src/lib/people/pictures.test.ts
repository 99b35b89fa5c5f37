import { PICTURES } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import { words } from '../messages/index.ts';
import { CARD_PICTURES } from './pictures.ts';

describe('CARD_PICTURES', () => {
  it('has a drawing and a word for every picture a card may hold, each its own', () => {
    expect(Object.keys(CARD_PICTURES).sort()).toEqual([...PICTURES].sort());
    expect(Object.keys(words.pictures).sort()).toEqual([...PICTURES].sort());
    expect(new Set(Object.values(CARD_PICTURES)).size).toBe(PICTURES.length);
  });
});
