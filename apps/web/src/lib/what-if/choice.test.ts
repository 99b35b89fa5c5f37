import { describe, expect, it } from 'vitest';
import { choiceOf, NOTHING, queryOf, readShown, roomOf } from './choice.ts';

const bin = { areaM2: 0.3, zones: 4 };
const room = roomOf(bin, 'metric');
const read = (query: string, units: 'metric' | 'us' = 'metric') => readShown(new URLSearchParams(query), roomOf(bin, units), units);

describe('a scenario in the address', () => {
  it('says what was chosen and comes back as it was', () => {
    const shown = { ...NOTHING, mass: 2.5, zones: 3, again: 'weekly', loosen: true, warmer: -4, food: 'lettuce' } as const;
    const query = queryOf(shown, 'metric');
    expect(query).toBe('mass=2.5&food=lettuce&zones=3&again=weekly&loosen=on&warmer=-4');
    expect(read(query)).toEqual(shown);
    expect(queryOf(NOTHING, 'us')).toBe('');
    expect(read('')).toEqual(NOTHING);
  });

  it('shared between kilograms and pounds it is the same scenario', () => {
    const shown = read('mass=5&card=1&water=2&warmer=9&units=us', 'us');
    const there = read(queryOf(shown, 'us'), 'metric');
    const [ours, theirs] = [choiceOf(shown, 'us'), choiceOf(there, 'metric')];
    for (const name of ['foodKg', 'beddingKg', 'waterKg', 'warmerC'] as const) expect(theirs[name]).toBeCloseTo(ours[name], 9);
    expect(ours.foodKg).toBeCloseTo(2.268, 3);
    expect(ours.warmerC).toBe(5);
  });

  it('nonsense is as if it had not been said, and too much is the most there is', () => {
    expect(read('mass=lots&zones=-3&again=hourly&warmer=x&out=ten')).toEqual(NOTHING);
    expect(read('mass=9999&zones=12&warmer=-99')).toMatchObject({ mass: room.mass, zones: 4, warmer: -room.warmer });
    expect(read('mass=1,5').mass).toBe(1.5);
  });
});
