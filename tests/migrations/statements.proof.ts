import { expect, test } from 'vitest';
import { failAt } from './statement-faults.ts';

test('F32 at length: every migration fails before each of its statements and after the last, and leaves the store as it was', () => {
  const { tried, broken, rows } = failAt(() => true);
  console.log(`${tried} faults in migrations, ${broken.length} left a mark`);
  expect(broken).toEqual([]);
  expect(tried).toBeGreaterThan(100);
  expect(rows).toEqual([{ code: 'F1', grams: 6250 }]);
});
