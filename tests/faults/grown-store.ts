/** The demonstration's store made larger while no server holds it. */
import { join } from 'node:path';
import Database from 'better-sqlite3';

const HEX = 'lower(hex(randomblob(6)))';

/** Brings it to so many bins: each new one is a copy of one that is there, with all it was fed. */
export function growBins(dataDir: string, count: number): void {
  const db = new Database(join(dataDir, 'demo.db'));
  const columnsOf = (table: string) => db.pragma(`table_info(${table})`) as { name: string }[];
  const copy = (table: string, changed: Readonly<Record<string, string>>, rest: string) => {
    const columns = columnsOf(table).map(({ name }) => name);
    db.exec(
      `INSERT INTO ${table} (${columns.join(', ')}) SELECT ${columns.map((one) => changed[one] ?? `${table}.${one}`).join(', ')} FROM ${table} ${rest}`,
    );
  };
  const there = db.prepare('SELECT id FROM bin ORDER BY id').pluck().all() as string[];
  db.exec('CREATE TEMP TABLE twin (old TEXT PRIMARY KEY, new TEXT)');
  db.transaction(() => {
    for (let at = there.length; at < count; at += 1) {
      const from = there[at % there.length]!;
      const id = `${from.slice(0, 24)}${String(at).padStart(12, '0')}`;
      copy('bin', { id: `'${id}'`, code: `'Q${at}'` }, `WHERE id = '${from}'`);
      db.exec(
        `DELETE FROM twin; INSERT INTO twin SELECT id, substr(id, 1, 24) || ${HEX} FROM entry WHERE bin_id = '${from}' AND kind = 'feeding'`,
      );
      copy('entry', { id: 'twin.new', bin_id: `'${id}'` }, 'JOIN twin ON twin.old = entry.id');
      for (const table of ['feeding', 'feeding_item']) copy(table, { entry_id: 'twin.new' }, `JOIN twin ON twin.old = ${table}.entry_id`);
    }
  })();
  db.close();
}

/** Fills it with notes, so many to a bin as to reach this size. */
export function growBytes(dataDir: string, bytes: number): number {
  const db = new Database(join(dataDir, 'demo.db'));
  const pages = () => Number(db.pragma('page_count', { simple: true })) * Number(db.pragma('page_size', { simple: true }));
  const add = db.prepare(
    `INSERT INTO entry (id, kind, bin_id, happened_at, local_date, received_at, note)
     SELECT '0192f000-0000-7000-8000-' || ${HEX}, 'note', bin.id, '2025-01-01T10:00:00.000Z', '2025-01-01', '2025-01-01T10:00:00.000Z', hex(randomblob(900))
     FROM bin, (WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 100) SELECT i FROM n)`,
  );
  while (pages() < bytes) add.run();
  const reached = pages();
  db.close();
  return reached;
}
