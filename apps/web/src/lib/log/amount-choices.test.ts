import { describe, expect, it } from 'vitest';
import { choicesOf, type FeedingItem } from './amount-choices.ts';
import { beddingChoicesKg } from './bedding-choices.ts';

const caddy = { id: '019ac000-0000-7000-8000-000000000601' };
const item = (given: Partial<FeedingItem>): FeedingItem => ({ materialId: 'lettuce', massKg: 1, how: 'weighed', ...given }) as FeedingItem;

describe('choicesOf()', () => {
  it('gives the presses that say it again', () => {
    const twoCaddies = item({ how: 'container', containerId: caddy.id, containerCount: 2, typed: { value: 2, unit: 'container' } });
    expect(choicesOf(twoCaddies, [caddy], 'kg')).toEqual({ amount: `container:${caddy.id}`, count: '2', weight: '', unit: 'kg' });
    expect(choicesOf(item({ typed: { value: 2, unit: 'lb' } }), [], 'kg')).toMatchObject({ amount: 'weight', weight: '2', unit: 'lb' });
    expect(choicesOf(item({ massKg: 0.63 }), [], 'kg')).toMatchObject({ weight: '0.63', unit: 'kg' });
  });
  it('gives none where no press says it', () => {
    const most = item({ how: 'container', containerId: caddy.id, containerCount: 2.5 });
    const gone = item({ how: 'container', containerId: caddy.id, containerCount: 1 });
    for (const [one, there] of [
      [most, [caddy]],
      [gone, []],
      [item({ how: 'guessed' }), []],
      [item({ containerId: caddy.id }), [caddy]],
    ] as const)
      expect(choicesOf(one, there, 'kg')).toBeNull();
  });
});

describe('beddingChoicesKg()', () => {
  const advice = { massKg: 2, beddingKg: 0.4 };
  const kgOf = (...given: Parameters<typeof beddingChoicesKg>) => beddingChoicesKg(...given).map((x) => x.kg);
  it('goes with the food, and stays with what was chosen', () => {
    expect(kgOf(advice, null, 0)).toEqual([0, 0.4, 0.8]);
    expect(kgOf(advice, 1, 0)).toEqual([0, 0.2, 0.4]);
    expect(kgOf(advice, 1, 0.65)).toEqual([0, 0.2, 0.4, 0.65]);
    expect(beddingChoicesKg(advice, 1, 0).filter((x) => x.advised)).toEqual([{ kg: 0.2, advised: true }]);
  });
  it('advises none where the bin asks for none', () => {
    expect(beddingChoicesKg({ massKg: 0, beddingKg: 0 }, 1, 0)).toEqual([0, 0.2, 0.4].map((kg) => ({ kg, advised: false })));
  });
});
