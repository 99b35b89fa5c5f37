/** The real migrations, each made to fail at its statements, on a store that holds something (criteria F32). */
import { createHash } from 'node:crypto';
import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { migrate } from '../../apps/api/src/db/migrate.ts';
import { openStore } from '../../apps/api/src/db/open.ts';
import { quotedName } from '../../apps/api/src/db/quoted-name.ts';
import type { Store } from '../../apps/api/src/db/store.ts';
import { MIGRATIONS_DIR } from '../cast.ts';

const NOW = new Date('2026-11-25T10:00:00.000Z');
/** Rows of the first schema, so that there is something to lose. */
export const ROWS = `
  INSERT INTO programme (id, name, is_demo, time_zone, created_at) VALUES ('0192f000-0000-7000-8000-000000000009', 'Two Gardens', 0, 'Europe/London', '2026-06-01');
  INSERT INTO site (id, name, time_zone, created_at) VALUES ('0192f000-0000-7000-8000-000000000001', 'Long Meadow', 'Europe/London', '2026-06-01');
  INSERT INTO person (id, name, created_at) VALUES ('0192f000-0000-7000-8000-000000000004', 'Otis Barrow', '2026-06-01');
  INSERT INTO bin (id, site_id, code, name, kind, area_m2, depth_m, zones, open_base, exposure, started_on, start_worms_g,
      start_bed_water_g, check_interval_days, created_at)
    VALUES ('0192f000-0000-7000-8000-000000000002', '0192f000-0000-7000-8000-000000000001', 'F1', 'Flow', 'flow-through', 0.5, 0.5, 2, 0, 'shade', '2026-06-01', 500, 4000, 7, '2026-06-01');
  INSERT INTO entry (id, kind, bin_id, happened_at, local_date, received_at)
    VALUES ('0192f000-0000-7000-8000-000000000003', 'harvest', '0192f000-0000-7000-8000-000000000002', '2026-11-20T10:00:00.000Z', '2026-11-20', '2026-11-20T10:00:00.000Z');
  INSERT INTO harvest VALUES ('0192f000-0000-7000-8000-000000000003', 6250, 'weighed', 6.25, 'kg', 'curing', 'by the shed');`;

export interface Failing {
  readonly migration: string;
  readonly statement: number;
}

/** A trigger's body has semicolons of its own and ends with END. */
export function statementsOf(text: string): string[] {
  const statements: string[] = [];
  let open = '';
  for (const piece of text.replace(/--[^\n]*/g, '').split(';')) {
    open += `${piece};`;
    if (/^\s*CREATE\s+TRIGGER/i.test(open) && !/\bEND\s*;$/i.test(open)) continue;
    if (open.trim() !== ';') statements.push(open.trim());
    open = '';
  }
  return statements;
}

/** Everything that a store is: what it is made of and every row. */
function printOf({ sqlite }: Store): string {
  const hash = createHash('sha256');
  const made = sqlite.prepare('SELECT type, name, sql FROM sqlite_schema ORDER BY type, name').all() as { type: string; name: string }[];
  hash.update(JSON.stringify([sqlite.pragma('user_version'), made]));
  for (const { name } of made.filter(({ type }) => type === 'table'))
    hash.update(JSON.stringify(sqlite.prepare(`SELECT * FROM ${quotedName(name)}`).all()));
  return hash.digest('hex');
}

/**
 * Takes a store through all migrations. On the way each one is first tried with a statement that
 * fails put in, at every place that is asked for, and must leave the store as it was.
 *
 * @returns What did not hold, in words; and how many faults were tried
 */
export function failAt(isAsked: (place: Failing) => boolean): {
  readonly tried: number;
  readonly broken: string[];
  readonly rows: unknown;
} {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-statements-'));
  const migrations = join(dir, 'migrations');
  mkdirSync(migrations);
  const store = openStore({ file: join(dir, 'own.db') });
  const step = () => migrate(store, { dir: migrations, copyDir: join(dir, 'copies'), now: NOW });
  const broken: string[] = [];
  let tried = 0;
  try {
    const names = readdirSync(MIGRATIONS_DIR).filter((name) => name.endsWith('.sql'));
    for (const name of names.sort()) {
      const target = join(migrations, name);
      const statements = statementsOf(readFileSync(join(MIGRATIONS_DIR, name), 'utf8'));
      for (let at = 0; at <= statements.length && !name.startsWith('0001'); at += 1) {
        if (!isAsked({ migration: name, statement: at })) continue;
        tried += 1;
        const before = printOf(store);
        writeFileSync(target, statements.toSpliced(at, 0, 'INSERT INTO nowhere VALUES (1);').join('\n'));
        if (!fails(step)) broken.push(`${name} did not fail at statement ${at}`);
        if (printOf(store) !== before) broken.push(`${name} left its mark at statement ${at}`);
        rmSync(join(dir, 'copies'), { recursive: true, force: true });
      }
      copyFileSync(join(MIGRATIONS_DIR, name), target);
      step();
      if (name.startsWith('0001')) store.sqlite.exec(ROWS);
    }
    const sound = [store.sqlite.pragma('integrity_check', { simple: true }), store.sqlite.pragma('foreign_key_check')];
    if (JSON.stringify(sound) !== '["ok",[]]') broken.push(`the store is not sound: ${JSON.stringify(sound)}`);
    const rows = store.sqlite.prepare(
      'SELECT b.code, h.grams FROM entry e JOIN bin b ON b.id = e.bin_id JOIN harvest h ON h.entry_id = e.id',
    );
    return { tried, broken, rows: rows.all() };
  } finally {
    store.sqlite.close();
    rmSync(dir, { recursive: true, force: true });
  }
}

function fails(work: () => unknown): boolean {
  try {
    work();
    return false;
  } catch (error) {
    return /no such table: nowhere.*Nothing was changed; a copy made beforehand/.test((error as Error).message);
  }
}
