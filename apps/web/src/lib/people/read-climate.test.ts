import { describe, expect, it } from 'vitest';
import { readClimate } from './read-climate.ts';

function form(value: (name: string, i: number) => string): FormData {
  const data = new FormData();
  for (const name of ['min', 'max']) for (let i = 0; i < 12; i++) data.set(`${name}-${i}`, value(name, i));
  return data;
}

describe('readClimate()', () => {
  it('takes all twelve months or none', () => {
    expect(readClimate(form((name, i) => (name === 'min' ? `−${i},5` : String(i + 10))))).toEqual({
      minC: [-0.5, -1.5, -2.5, -3.5, -4.5, -5.5, -6.5, -7.5, -8.5, -9.5, -10.5, -11.5],
      maxC: [10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21],
    });
    expect(readClimate(form(() => ''))).toEqual({ minC: null, maxC: null });
    expect(readClimate(form((name, i) => (name === 'max' && i === 3 ? '' : '5')))).toBeNull();
    expect(readClimate(form(() => 'warm'))).toBeNull();
  });
});
