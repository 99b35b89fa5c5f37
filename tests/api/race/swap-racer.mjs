/** One of many processes that accept the same place on offer; told `naive`, it looks first and then writes. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';

const { file, acceptSql, way, tries, personId, swapId, racer, racers } = JSON.parse(readFileSync(0, 'utf8'));
const sqlite = new Database(file);
sqlite.pragma('journal_mode = WAL');
sqlite.pragma('busy_timeout = 20000');
const accept = sqlite.prepare(acceptSql);
const isOpen = sqlite.prepare('SELECT 1 FROM swap WHERE id = ? AND ended_at IS NULL').pluck();
const write = sqlite.prepare("UPDATE swap SET ended_at = ?, ended_how = 'accepted', accepted_by = ? WHERE id = ?");

const at = new Date().toISOString();
const blink = new Int32Array(new SharedArrayBuffer(4));
function tryOnce() {
  if (way === 'statement') return accept.run({ id: swapId, personId, at }).changes === 1;
  if (!isOpen.get(swapId)) return false;
  // What any real handler does in between takes at least this long.
  Atomics.wait(blink, 0, 0, 500);
  return write.run(at, personId, swapId).changes === 1;
}

// Everybody waits at the line for the last to come, or there is no race on a busy machine.
const dir = dirname(file);
const line = `ready ${swapId} `;
writeFileSync(join(dir, `${line}${racer}`), '');
for (let waits = 0; readdirSync(dir).filter((name) => name.startsWith(line)).length < racers && waits < 6000; waits += 1) {
  Atomics.wait(blink, 0, 0, 5);
}
const result = { won: 0, lost: 0, errors: [] };
for (let count = 0; count < tries; count += 1) {
  try {
    if (tryOnce()) result.won += 1;
    else result.lost += 1;
  } catch (error) {
    result.errors.push(error.code ?? error.message);
  }
}
sqlite.close();
process.stdout.write(JSON.stringify(result));
