import { expect, test } from 'vitest';
import { LONGEST_ADDRESS, labelAddress } from '../../apps/web/src/lib/labels/address.ts';
import { seeded } from '../../apps/web/src/lib/shared/seeded.ts';
import { oneSplash, pictured, readEnds } from './muddy-label.ts';

const WET_SOIL = 60;

test('B20: a decoder that is not ours reads 20 of 20 labels with one dark splash on 15 % of the label', () => {
  const address = labelAddress('https://bins.example.org', 'T1');
  expect(address.length).toBeLessThanOrEqual(LONGEST_ADDRESS);
  const label = pictured(address);
  expect(readEnds(label)).toEqual([address, address]);
  const read = Array.from({ length: 20 }, (_, n) => readEnds(oneSplash(label, 0.15, WET_SOIL, seeded(`mud ${n}`))));
  expect(read.filter((ends) => ends.includes(address))).toHaveLength(20);
  // Mud that hid nothing would prove nothing: one code alone is lost now and then.
  expect(read.filter((ends) => ends.includes(null)).length).toBeGreaterThan(4);
});
