/**
 * One of many processes that race for places. It signs up through the very statement of the product,
 * or, told `naive`, through the two statements that overbook.
 */

import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import Database from 'better-sqlite3';

const { file, takeSql, way, personId, shiftIds, startAtMs } = JSON.parse(readFileSync(0, 'utf8'));
const sqlite = new Database(file);
sqlite.pragma('journal_mode = WAL');
sqlite.pragma('synchronous = FULL');
sqlite.pragma('busy_timeout = 5000');
const take = sqlite.prepare(takeSql);
const count = sqlite.prepare('SELECT count(*) FROM sign_up WHERE shift_id = ? AND given_back_at IS NULL').pluck();
const places = sqlite.prepare('SELECT places FROM shift WHERE id = ?').pluck();
const insert = sqlite.prepare('INSERT INTO sign_up (id, shift_id, person_id, taken_at) VALUES (?, ?, ?, ?)');

const at = new Date().toISOString();
const blink = new Int32Array(new SharedArrayBuffer(4));
function tryOnce(shiftId) {
  if (way === 'statement') return take.run({ id: randomUUID(), shiftId, personId, at, keepsOffers: 1 }).changes === 1;
  if (count.get(shiftId) >= places.get(shiftId)) return false;
  // What any real handler does in between takes at least this long.
  Atomics.wait(blink, 0, 0, 2);
  insert.run(randomUUID(), shiftId, personId, at);
  return true;
}

while (Date.now() < startAtMs) {
  // Everybody starts at the same moment, or there is no race.
}
const result = { taken: 0, full: 0, errors: [] };
for (const shiftId of shiftIds) {
  try {
    if (tryOnce(shiftId)) result.taken += 1;
    else result.full += 1;
  } catch (error) {
    result.errors.push(error.code ?? error.message);
  }
}
sqlite.close();
process.stdout.write(JSON.stringify(result));
