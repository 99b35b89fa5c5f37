import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, expect, test } from 'vitest';
import { FLIPS, flipAndRead, seeded } from './page-flips.ts';
import { Folders } from './stage.ts';

const folders = new Folders();
afterAll(() => folders.remove());

test('F11: of a hundred pages overwritten whole, 95 or more are found by the check, and no changed total goes unfound', async () => {
  const dir = await folders.withDemo();
  const sound = join(dir, 'demo.db');
  const sqlite = new Database(sound);
  sqlite.pragma('wal_checkpoint(TRUNCATE)');
  sqlite.pragma('journal_mode = DELETE');
  sqlite.close();
  const below = seeded(20_261_126);
  const whole = FLIPS.filter((flip) => flip !== 'a few bytes');
  const results = Array.from({ length: 100 }, (_, at) => flipAndRead(sound, join(dir, 'flipped.db'), whole[at % whole.length]!, below));
  expect(results.filter(({ found }) => found).length).toBeGreaterThanOrEqual(95);
  // A sound page of the same kind in the wrong place can be read, and add up wrongly, until the check has looked.
  expect(results.filter(({ found, wrongTotals }) => wrongTotals && !found)).toEqual([]);
  expect(results.filter(({ wrongTotals }) => wrongTotals).length).toBeLessThanOrEqual(5);
}, 600_000);
