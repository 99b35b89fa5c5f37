/** The demonstration's store made larger while no server holds it. */
import { join } from 'node:path';
import Database from 'better-sqlite3';

/** A feeding keeps what it was, under an id and for a bin of its own. */
const FRESH_TABLES = `
  CREATE TEMP TABLE new_bin AS SELECT * FROM bin WHERE 0;
  CREATE TEMP TABLE new_entry AS SELECT * FROM entry WHERE 0;
  CREATE TEMP TABLE new_feeding AS SELECT * FROM feeding WHERE 0;
  CREATE TEMP TABLE new_item AS SELECT * FROM feeding_item WHERE 0;
  CREATE TEMP TABLE twin (old TEXT PRIMARY KEY, new TEXT);`;
const COPY_ALL = `
  INSERT INTO twin SELECT id, substr(id, 1, 24) || lower(hex(randomblob(6))) FROM new_entry;
  INSERT INTO new_feeding SELECT * FROM feeding WHERE entry_id IN (SELECT old FROM twin);
  INSERT INTO new_item SELECT * FROM feeding_item WHERE entry_id IN (SELECT old FROM twin);
  UPDATE new_entry SET id = (SELECT new FROM twin WHERE old = id), bin_id = (SELECT id FROM new_bin);
  UPDATE new_feeding SET entry_id = (SELECT new FROM twin WHERE old = entry_id);
  UPDATE new_item SET entry_id = (SELECT new FROM twin WHERE old = entry_id);
  INSERT INTO bin SELECT * FROM new_bin;
  INSERT INTO entry SELECT * FROM new_entry;
  INSERT INTO feeding SELECT * FROM new_feeding;
  INSERT INTO feeding_item SELECT * FROM new_item;
  DELETE FROM new_bin; DELETE FROM new_entry; DELETE FROM new_feeding; DELETE FROM new_item; DELETE FROM twin;`;

/** Brings it to so many bins: each new one is a copy of one that is there, with all it was fed. */
export function growBins(dataDir: string, count: number): void {
  const db = new Database(join(dataDir, 'demo.db'));
  const there = db.prepare('SELECT id FROM bin ORDER BY id').pluck().all() as string[];
  db.exec(FRESH_TABLES);
  const takeBin = db.prepare('INSERT INTO new_bin SELECT * FROM bin WHERE id = ?');
  const nameBin = db.prepare('UPDATE new_bin SET id = ?, code = ?');
  const takeFeedings = db.prepare("INSERT INTO new_entry SELECT * FROM entry WHERE bin_id = ? AND kind = 'feeding'");
  db.transaction(() => {
    for (let at = there.length; at < count; at += 1) {
      const from = there[at % there.length]!;
      takeBin.run(from);
      nameBin.run(`${from.slice(0, 24)}${String(at).padStart(12, '0')}`, `Q${at}`);
      takeFeedings.run(from);
      db.exec(COPY_ALL);
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
     SELECT '0192f000-0000-7000-8000-' || lower(hex(randomblob(6))), 'note', bin.id,
       '2025-01-01T10:00:00.000Z', '2025-01-01', '2025-01-01T10:00:00.000Z', hex(randomblob(900))
     FROM bin, (WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 100) SELECT i FROM n)`,
  );
  while (pages() < bytes) add.run();
  const reached = pages();
  db.close();
  return reached;
}
