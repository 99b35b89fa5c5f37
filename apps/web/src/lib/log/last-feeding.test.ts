import { describe, expect, it } from 'vitest';
import type { Entry } from '../bin/types.ts';
import { makeFormat } from '../format/format.ts';
import type { PocketOutlook } from '../pocket/types.ts';
import { justNotedOf, lastFeedingOf, sameAgainWords, zoneAgain } from './last-feeding.ts';

const f = makeFormat({ units: 'metric', locale: 'en-GB', timeZone: 'Europe/London', today: '2026-11-25' });
const caddy = { id: 'c1', name: 'Blue caddy' };
const fed = (given: object) =>
  ({
    kind: 'feeding',
    mine: false,
    undoneAt: null,
    receivedAt: '2026-11-25T08:00:00.000Z',
    zone: 3,
    beddingKg: 0,
    items: [{ materialId: 'lettuce', materialName: 'Lettuce', massKg: 1.6, how: 'container', containerId: 'c1', containerCount: 1 }],
    ...given,
  }) as unknown as Extract<Entry, { kind: 'feeding' }>;
const outlook = (zones: number[]) => ({ advice: { zones }, zones: [] }) as unknown as PocketOutlook;
const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('the last feeding', () => {
  it('is my own before that of others, and never one that was undone', () => {
    const [others, mine, undone] = [fed({}), fed({ mine: true }), fed({ mine: true, undoneAt: '2026-11-25T08:01:00Z' })];
    expect(lastFeedingOf([undone, others, mine])).toBe(mine);
    expect(lastFeedingOf([undone, others])).toBe(others);
    expect(lastFeedingOf([undone])).toBeNull();
  });
  it('says what, how much and where it goes now', () => {
    expect(plain(sameAgainWords(fed({}), outlook([5]), [caddy], f))).toBe('1 × blue caddy of lettuce, zone 5, which is next');
    expect(plain(sameAgainWords(fed({ beddingKg: 0.3 }), outlook([]), [], f))).toBe('1.6 kg of lettuce and 0.3 kg of bedding, zone 3');
    expect(zoneAgain(fed({}), outlook([]))).toEqual({ zone: 3, isNext: false });
  });
});

describe('justNotedOf()', () => {
  const at = (minutes: number) => new Date(Date.parse('2026-11-25T08:00:00Z') + minutes * 60_000);
  it('B.2: my own can be taken back for more than ten minutes, those of others and what is undone never', () => {
    const mine = fed({ mine: true });
    expect([0, 10, 14].map((minutes) => justNotedOf([mine], at(minutes)))).toEqual([mine, mine, mine]);
    expect(justNotedOf([mine], at(16))).toBeNull();
    expect(justNotedOf([fed({}), fed({ mine: true, undoneAt: 'then' })], at(1))).toBeNull();
  });
});
