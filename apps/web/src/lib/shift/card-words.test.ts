import { describe, expect, it } from 'vitest';
import { makeFormat } from '../format/format.ts';
import { bringLines, dutyLine, half } from './card-words.ts';
import type { CardDuty } from './types.ts';

const f = makeFormat({ units: 'metric', locale: 'en-GB', timeZone: 'Europe/London', today: '2026-11-25' });
const plain = (text: string) => text.replaceAll('\u00a0', ' ');
const duty: CardDuty = {
  kind: 'feed',
  minutes: 10,
  why: 'food-nearly-gone',
  urgency: 'overdue',
  feed: {
    from: 'advice',
    massKg: 1.5,
    lowKg: 1.1,
    highKg: 1.9,
    zones: [3, 1],
    hold: null,
    scraps: [],
    bedding: [{ materialId: 'card', name: 'Torn card', massKg: 0.4 }],
    containers: [
      { containerId: 'a', name: 'blue caddy', count: 1.5 },
      { containerId: 'b', name: 'white tub', count: 0.5 },
    ],
  },
  massKg: null,
  cautions: ['gloves'],
  result: null,
  note: '',
  noted: false,
};

describe('words of a card', () => {
  it('dutyLine() says how much, where, in which containers, with which bedding', () => {
    const said = dutyLine(duty, f);
    expect(plain(said.main)).toBe('Feed: 1.5 kg of scraps in zone 3');
    expect(said.details.map(plain)).toEqual([
      '1.1 kg to 1.9 kg is fine',
      'that is 1½ × blue caddy or ½ × white tub',
      'with 0.4 kg of torn card',
      'it is overdue',
    ]);
  });
  it('dutyLine() gives no amount where nothing may go in', () => {
    const said = dutyLine({ ...duty, feed: { ...duty.feed!, hold: 'sour' } }, f);
    expect(said.main).toBe('Feed: Do not feed it today. The bed is sour');
    expect(said.details).toEqual(['it is overdue']);
  });
  it('dutyLine() says water in litres and castings by weight', () => {
    const other = { ...duty, feed: null, urgency: 'in-window' as const };
    expect(plain(dutyLine({ ...other, kind: 'water', massKg: 2, why: 'drying-out' }, f).main)).toBe('Water: about 2 litres');
    expect(plain(dutyLine({ ...other, kind: 'harvest', massKg: 9, why: 'castings-ready' }, f).main)).toBe('Harvest: expect about 9 kg');
    expect(dutyLine({ ...other, kind: 'check' }, f).main).toBe('Check');
  });
  it('half() writes halves', () => {
    expect([0.5, 1, 2.5].map(half)).toEqual(['½', '1', '2½']);
  });
  it('bringLines() says what the store lacks', () => {
    const card = { materialId: 'card', name: 'Torn card', massKg: 2, inStoreKg: 0.5 };
    expect(bringLines({ bedding: [card], waterKg: 3 }, f).map(plain)).toEqual([
      'Gloves',
      '2 kg of torn card (0.5 kg in store): more than there is in store',
      '3 litres of water',
    ]);
    expect(bringLines({ bedding: [], waterKg: 0 }, f)).toEqual(['Gloves. Nothing else has to be brought.']);
  });
});
