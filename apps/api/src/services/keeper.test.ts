import { expect, test } from 'vitest';
import { isLow } from './keeper.ts';

const MB = 1024 * 1024;
const GB = 1024 * MB;

test.each([
  ['499 MB of a small disk', 499 * MB, 2 * GB, true],
  ['501 MB of a small disk', 501 * MB, 2 * GB, false],
  ['9 % of a large disk', 9 * GB, 100 * GB, true],
  ['11 % of a large disk', 11 * GB, 100 * GB, false],
])('F12: %s is called low, or not', (_, free, disk, low) => {
  expect(isLow(free, disk)).toBe(low);
});
