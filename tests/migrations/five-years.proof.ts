/** A store of the first schema with five years of sixty bins, opened by the program of today (criteria F32). */
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { migrate, readMigrations } from '../../apps/api/src/db/migrate.ts';
import { openStore } from '../../apps/api/src/db/open.ts';
import { startServer } from '../browser/started.ts';
import { MIGRATIONS_DIR } from '../cast.ts';
import { ROWS } from './statement-faults.ts';

/** As they stand in the rows below. */
const [BINS, DAYS] = [60, 5 * 365];

/** Sixty bins like the one of the rows; a feeding each day, every seventh day a harvest. */
const MANY = `
  CREATE TEMP TABLE nth AS WITH RECURSIVE n (i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < 1824) SELECT i FROM n;
  INSERT INTO bin (id, site_id, code, name, kind, area_m2, depth_m, zones, open_base, exposure, started_on, start_worms_g,
      start_bed_water_g, check_interval_days, created_at)
    SELECT printf('0192f000-0000-7000-8000-%012d', 1000 + i), site_id, printf('Q%d', 100 + i), name, kind, area_m2, depth_m, zones, open_base,
      exposure, '2021-06-01', start_worms_g, start_bed_water_g, check_interval_days, created_at FROM bin, nth WHERE i < 59;
  CREATE TEMP TABLE made AS
    SELECT printf('0192f000-0000-7000-8000-%012d', 1000000 + bin.rowid * 1825 + i) AS id, CASE i % 7 WHEN 0 THEN 'harvest' ELSE 'feeding' END AS kind,
      bin.id AS bin_id, date('2021-06-02', i || ' days') AS day FROM bin, nth;
  INSERT INTO entry (id, kind, bin_id, happened_at, local_date, received_at, note)
    SELECT id, kind, bin_id, day || 'T10:00:00.000Z', day, day || 'T10:00:05.000Z', 'as the day before, and a little wetter at one end' FROM made;
  INSERT INTO feeding (entry_id, zone) SELECT id, 1 FROM made WHERE kind = 'feeding';
  INSERT INTO feeding_item (entry_id, seq, material_id, grams, how)
    SELECT id, seq, 'coffee_grounds', 400, 'weighed' FROM made, (SELECT 0 AS seq UNION ALL SELECT 1) WHERE kind = 'feeding';
  INSERT INTO harvest (entry_id, grams, how, destination) SELECT id, 900, 'weighed', 'beds' FROM made WHERE kind = 'harvest';`;

test('F32 at length: five years of sixty bins go from the first schema to this one within 30 s, and not a row is lost', async () => {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-five-years-'));
  try {
    const store = openStore({ file: join(dir, 'own.db') });
    migrate(store, { dir: MIGRATIONS_DIR, copyDir: join(dir, 'backups'), now: new Date(), upTo: 1 });
    store.sqlite.exec(ROWS);
    store.sqlite.exec(`BEGIN; ${MANY} COMMIT;`);
    const countOf = (sqlite: typeof store.sqlite) =>
      sqlite.prepare('SELECT kind, count(*) AS n FROM entry GROUP BY kind ORDER BY kind').all();
    const before = countOf(store.sqlite);
    const megabytes = Math.round((Number(store.sqlite.pragma('page_count', { simple: true })) * 4096) / 1e6);
    store.sqlite.close();

    const began = performance.now();
    const server = await startServer({ dataDir: dir, keepData: true, flags: ['--own'] });
    const tookS = (performance.now() - began) / 1000;
    expect((await fetch(`${server.origin}/readyz`)).status).toBe(200);
    await server.stop();
    const after = openStore({ file: join(dir, 'own.db') });
    expect(countOf(after.sqlite)).toEqual(before);
    expect(after.sqlite.prepare('SELECT count(*) FROM entry').pluck().get()).toBeGreaterThan(BINS * DAYS);
    expect(after.sqlite.pragma('user_version', { simple: true })).toBe(readMigrations(MIGRATIONS_DIR).length);
    after.sqlite.close();
    expect(readdirSync(join(dir, 'backups')).filter((name) => name.startsWith('before-schema-'))).not.toEqual([]);
    console.log(`${megabytes} MB, ${JSON.stringify(before)}: ready after ${tookS.toFixed(1)} s`);
    expect(tookS).toBeLessThan(30);
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
});
