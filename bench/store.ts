import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { table } from './measure.ts';
import { startOurs } from './server-process.ts';

const daysPerYear = 365.25;

/** Every row of every table copied by bare SQL into an empty store of the same schema: what making it could cost at the least. */
function copyAllMs(from: string, to: string): number {
  const source = new Database(from, { readonly: true });
  const schema = source
    .prepare(
      "SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite_%' AND type IN ('table', 'index') ORDER BY type DESC",
    )
    .pluck()
    .all() as string[];
  const tables = source
    .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .pluck()
    .all() as string[];
  source.close();
  const db = new Database(to);
  db.pragma('foreign_keys = OFF');
  const since = performance.now();
  for (const sql of schema) db.exec(sql);
  db.prepare('ATTACH ? AS source').run(from);
  const quotedName = (name: string): string => `"${name.replaceAll('"', '""')}"`;
  db.transaction(() => {
    for (const name of tables) db.exec(`INSERT INTO main.${quotedName(name)} SELECT * FROM source.${quotedName(name)}`);
  })();
  const ms = performance.now() - since;
  db.close();
  return ms;
}

/** How long the demonstration takes to make, and how much room a year of log takes. */
export async function benchStore(): Promise<string> {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-store-'));
  try {
    const first = await startOurs(dir);
    await first.stop();
    const again = await startOurs(dir);
    await again.stop();
    const file = join(dir, 'demo.db');
    const seedMs = first.startedMs - again.startedMs;
    const floorMs = copyAllMs(file, join(dir, 'copy.db'));
    const db = new Database(file, { readonly: true });
    const { entries, days, bins } = db
      .prepare(
        `SELECT count(*) AS entries, julianday(max(local_date)) - julianday(min(local_date)) AS days,
         (SELECT count(*) FROM bin) AS bins FROM entry`,
      )
      .get() as { entries: number; days: number; bins: number };
    db.close();
    const bytes = statSync(file).size;
    const years = days / daysPerYear;
    const rows = [
      ['demonstration made', seedMs / 1_000, 's', `${(seedMs / floorMs).toFixed(0)} x its rows copied by bare SQL`],
      ['entries', String(entries), '', `${bins} bins over ${days.toFixed(0)} days`],
      ['store', bytes / 1_048_576, 'MB', ''],
      ['a year of log', bytes / years / 1_048_576, 'MB', `${(bytes / years / bins / 1_024).toFixed(0)} kB a bin`],
      ['one entry', bytes / entries, 'bytes', 'indexes, history and audit included'],
    ] as const;
    return table(['what', 'value', 'unit', 'note'], rows);
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}
