/** SQLite finds no more room: the file may not grow by a page. The small file system of a full disk is for the long proofs. */
import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { roomOf } from '../../apps/api/src/services/room.ts';
import { BINS, type Cast, freshId, openCast } from '../cast.ts';

const MB = 1024 * 1024;

let cast: Cast;
let freeBytes: number;
beforeEach(async () => {
  freeBytes = 100 * MB;
  cast = await openCast({ room: (dir) => roomOf(dir, () => freeBytes) });
});
afterEach(() => cast.close());

const MOST_WRITES = 400;
const note = (id: string) => ({ id, binId: BINS.tote, happenedAt: '2026-11-25T09:00:00.000Z', note: 'x'.repeat(1900) });
const check = (id: string, who: 'volunteer' | 'coordinator' = 'volunteer') => cast.call(who, 'POST', '/api/checks', note(id));

test('F12: a write without room answers 507 in words, reads go on, and nothing acknowledged is lost', async () => {
  const pages = Number(cast.store.sqlite.pragma('page_count', { simple: true }));
  cast.store.sqlite.pragma(`max_page_count = ${pages + 20}`);
  const kept: string[] = [];
  let refused = await check(freshId());
  for (let write = 0; write < MOST_WRITES && refused.status === 201; write++) {
    kept.push(refused.body.id);
    refused = await check(freshId());
  }
  expect(refused.status).toBe(507);
  expect(refused.body.code).toBe('no-room');
  expect(kept.length).toBeGreaterThan(2);
  for (const id of kept) expect((await cast.call('volunteer', 'GET', `/api/entries/${id}`)).status).toBe(200);
  expect((await cast.call('volunteer', 'GET', '/api/board')).status).toBe(200);

  // Room again, no restart: the very same note goes in, once.
  cast.store.sqlite.pragma(`max_page_count = ${pages + 4000}`);
  const id = freshId();
  expect((await check(id)).status).toBe(201);
  expect([200, 201]).toContain((await check(id)).status);
  const { items } = (await cast.call('volunteer', 'GET', `/api/bins/${BINS.tote}/entries?limit=200`)).body;
  expect(items).toHaveLength(kept.length + 1);
  expect(cast.store.sqlite.pragma('integrity_check', { simple: true })).toBe('ok');
  expect(cast.store.sqlite.pragma('foreign_key_check')).toEqual([]);
});

test('F12: five megabytes kept back let a coordinator write when nobody else can, and are kept back again once there is room', async () => {
  const reserve = join(cast.dir, 'room.reserve');
  expect(statSync(reserve).size).toBe(5 * MB);
  const pages = Number(cast.store.sqlite.pragma('page_count', { simple: true }));
  freeBytes = 0;
  expect((await check(freshId())).status).toBe(201);
  cast.store.sqlite.pragma(`max_page_count = ${pages}`);
  let refused = await check(freshId());
  for (let write = 0; write < MOST_WRITES && refused.status === 201; write++) refused = await check(freshId());
  expect([refused.status, refused.body.code, existsSync(reserve)]).toEqual([507, 'no-room', false]);

  // The room that was given back: the coordinator's, and nobody else's.
  cast.store.sqlite.pragma(`max_page_count = ${pages + 1280}`);
  const id = freshId();
  expect((await check(id, 'coordinator')).status).toBe(201);
  expect((await cast.call('coordinator', 'DELETE', `/api/entries/${id}`)).status).toBe(200);
  expect((await check(freshId())).body.code).toBe('no-room');
  expect((await cast.call('volunteer', 'GET', `/api/entries/${id}`)).status).toBe(200);
  expect((await cast.call('coordinator', 'GET', '/api/season.csv?from=2026-11-01&to=2026-11-30')).status).toBe(200);

  freeBytes = 7 * MB;
  expect((await check(freshId())).status).toBe(507);
  freeBytes = 20 * MB;
  expect([(await check(freshId())).status, statSync(reserve).size]).toEqual([201, 5 * MB]);
});
