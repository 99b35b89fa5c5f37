/** A disk for backups that is really full, is made larger, and is then pulled out. Needs the rights to mount one. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { BINS, type Cast, freshId, later, openCast } from '../cast.ts';

const HOUR_MINUTES = 60;
let cast: Cast;
let dir: string;
let isIn = false;
const mount = (...args: string[]) => execFileSync('mount', ['-t', 'tmpfs', ...args, 'tmpfs', dir]);

beforeAll(async () => {
  cast = await openCast();
  dir = join(cast.dir, 'backups');
  mkdirSync(dir, { recursive: true });
  mount('-o', 'size=400k');
  isIn = true;
});
afterAll(async () => {
  if (isIn) execFileSync('umount', ['-l', dir]);
  rmSync(dir, { recursive: true, force: true });
  await cast.close();
});

test('F13: a full or missing disk for backups leaves no half backup, is told, and the app goes on', async () => {
  const { keeper } = cast.app.middenry;
  const harvest = async () => {
    const body = { id: freshId(), binId: BINS.tote, happenedAt: '2026-11-25T09:00:00Z', massKg: 1, destination: 'beds' };
    expect((await cast.call('volunteer', 'POST', '/api/harvests', body)).status).toBe(201);
  };
  const told = async () => (await cast.call('coordinator', 'GET', '/api/keep')).body;
  const copies = (from: string) => readdirSync(from).filter((name) => name.includes('.db'));
  writeFileSync(join(dir, 'ballast'), Buffer.alloc(100_000, 1));
  await harvest();
  await expect(keeper!.look()).rejects.toThrow(/full|ENOSPC/);
  expect(copies(dir)).toEqual([]);
  expect(await told()).toMatchObject({ backups: 0, lastFault: expect.stringMatching(/full|ENOSPC/) });
  await harvest();

  execFileSync('mount', ['-o', 'remount,size=16m', dir]);
  expect((await keeper!.look()).join()).toContain('backed up to');
  expect(await told()).toMatchObject({ backups: 1, lastFault: null });
  for (const name of copies(dir)) expect(statSync(join(dir, name)).size).toBeGreaterThan(0);

  // Pulled out: what is left is the empty folder that it was mounted on.
  execFileSync('umount', ['-l', dir]);
  isIn = false;
  expect((await told()).backups).toBe(0);
  later(cast, 2 * HOUR_MINUTES);
  await harvest();
  expect((await keeper!.look()).join()).toContain('backed up to');
  expect((await told()).backups).toBe(1);
});
