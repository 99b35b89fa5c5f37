/** A disk that is really full: a file system of 32 MB in memory, filled to the last page. Needs the rights to mount one. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { roomOf } from '../../apps/api/src/services/room.ts';
import { BINS, type Cast, freshId, openCast } from '../cast.ts';

const usualTmp = tmpdir();
const disk = mkdtempSync(join(usualTmp, 'middenry-disk-'));
const ballast = join(disk, 'ballast');
let cast: Cast;

beforeAll(async () => {
  execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=32m', 'tmpfs', disk]);
  process.env.TMPDIR = disk;
  cast = await openCast({ room: (dir) => roomOf(dir) });
});
afterAll(async () => {
  await cast?.close();
  process.env.TMPDIR = usualTmp;
  execFileSync('umount', [disk]);
  rmSync(disk, { recursive: true, force: true });
});

const check = (who: 'volunteer' | 'coordinator') =>
  cast.call(who, 'POST', '/api/checks', {
    id: freshId(),
    binId: BINS.tote,
    happenedAt: '2026-11-25T09:00:00.000Z',
    note: 'x'.repeat(1900),
  });
const freeBytes = () => {
  const { bavail, bsize } = statfsSync(disk);
  return bavail * bsize;
};

test('F12: on a full disk writes answer 507, reads go on, a coordinator still writes, and space ends it without a restart', async () => {
  const reserve = join(cast.dir, 'room.reserve');
  expect(existsSync(reserve)).toBe(true);
  writeFileSync(ballast, Buffer.alloc(freeBytes() - 1_500_000, 1));
  let kept = 0;
  let answer = await check('volunteer');
  for (; answer.status === 201 && kept < 2000; kept += 1) answer = await check('volunteer');
  expect([answer.status, answer.body.code, existsSync(reserve)]).toEqual([507, 'no-room', false]);
  expect(kept).toBeGreaterThan(10);
  expect((await check('volunteer')).status).toBe(507);
  expect((await cast.call('volunteer', 'GET', '/api/board')).status).toBe(200);
  for (let write = 0; write < 50; write += 1) expect((await check('coordinator')).status).toBe(201);
  expect((await check('volunteer')).status).toBe(507);

  rmSync(ballast);
  const began = performance.now();
  expect((await check('volunteer')).status).toBe(201);
  expect(performance.now() - began).toBeLessThan(10_000);
  expect(existsSync(reserve)).toBe(true);
  expect(cast.store.sqlite.pragma('integrity_check', { simple: true })).toBe('ok');
  expect(cast.store.sqlite.prepare('SELECT count(*) FROM bin_check').pluck().get()).toBe(kept + 51);
});
