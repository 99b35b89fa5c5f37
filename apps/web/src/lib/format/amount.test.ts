import { describe, expect, it } from 'vitest';
import { readAmount } from './amount.ts';

const ok = (value: number, unit: string | null = null) => ({ status: 'ok', value, unit });
const unclear = (small: number, large: number, unit: string | null = null) => ({ status: 'unclear', readings: [small, large], unit });
const bad = { status: 'not-a-number' };

/** The table of criteria B6. */
const TABLE: readonly (readonly [string, object])[] = [
  ['1.5', ok(1.5)],
  ['1,5', ok(1.5)],
  [' 1.5 kg', ok(1.5, 'kg')],
  ['1.5kg', ok(1.5, 'kg')],
  ['1,5 KG', ok(1.5, 'kg')],
  ['1,500', unclear(1.5, 1500)],
  ['1,500 g', unclear(1.5, 1500, 'g')],
  ['12,345', unclear(12.345, 12345)],
  ['0,500', ok(0.5)],
  ['0,125 kg', ok(0.125, 'kg')],
  ['1.500', ok(1.5)],
  ['1.250 kg', ok(1.25, 'kg')],
  ['500 g', ok(500, 'g')],
  ['500g', ok(500, 'g')],
  ['500 grams', ok(500, 'g')],
  ['500 gramos', ok(500, 'g')],
  ['1,5 kilos', ok(1.5, 'kg')],
  ['2 libras', ok(2, 'lb')],
  ['2 lb', ok(2, 'lb')],
  ['2lbs', ok(2, 'lb')],
  ['3 oz', ok(3, 'oz')],
  ['1 lb 4 oz', ok(20, 'oz')],
  ['2 pounds 8 ounces', ok(40, 'oz')],
  ['½', ok(0.5)],
  ['1½ lb', ok(1.5, 'lb')],
  ['1 1/2', ok(1.5)],
  ['3/4 kg', ok(0.75, 'kg')],
  ['.5', ok(0.5)],
  [',5', ok(0.5)],
  ['1 500', ok(1500)],
  ['1 500 g', ok(1500, 'g')],
  ["1'500", ok(1500)],
  ['1,234.5', ok(1234.5)],
  ['1.234,5', ok(1234.5)],
  ['1,234,567', ok(1234567)],
  ['', { status: 'empty' }],
  ['   ', { status: 'empty' }],
  ['-1', { status: 'negative' }],
  ['−0,5 kg', { status: 'negative' }],
  ['abc', bad],
  ['1.5.2', bad],
  ['1..5', bad],
  ['kg', bad],
  ['1 5', bad],
  ['5 stone', bad],
  ['1,', bad],
  ['1.', ok(1)],
  ['1/0', bad],
  ['0', ok(0)],
  ['1e3', bad],
  ['NaN', bad],
  ['Infinity', bad],
];

describe('B6: readAmount()', () => {
  it.each(TABLE)('reads %j', (typed, expected) => {
    expect(readAmount(typed)).toEqual(expected);
  });

  it('holds at least the forty cases that were agreed', () => {
    expect(TABLE.length).toBeGreaterThanOrEqual(40);
  });
});
