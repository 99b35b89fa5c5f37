import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest';
import { beginExport } from '../../apps/api/src/services/export/begin-export.ts';
import { soundnessOf } from '../../apps/api/src/services/soundness.ts';
import { BINS, type Cast, freshId, later, openCast, PEOPLE } from '../cast.ts';
import { FLIPS, flipAndRead, seeded } from './page-flips.ts';
import { Folders, startRefused } from './stage.ts';

const HOUR_MINUTES = 60;
const harvest = (cast: Cast) =>
  cast.call('volunteer', 'POST', '/api/harvests', {
    id: freshId(),
    binId: BINS.tote,
    happenedAt: '2026-11-25T09:00:00Z',
    massKg: 1,
    destination: 'beds',
  });
const entries = (cast: Cast) => Number(cast.store.sqlite.prepare('SELECT count(*) FROM entry').pluck().get());

/** Empties the page on which an index begins: reading by it finds nothing, and only a whole check tells. */
function loseIndex(file: string, name: string): void {
  const sqlite = new Database(file);
  sqlite.pragma('wal_checkpoint(TRUNCATE)');
  const page = Number(sqlite.prepare('SELECT rootpage FROM sqlite_schema WHERE name = ?').pluck().get(name));
  sqlite.close();
  const bytes = readFileSync(file);
  const pageBytes = bytes.readUInt16BE(16);
  // An index page that is sound in itself and has no rows.
  const empty = Buffer.alloc(pageBytes);
  empty[0] = 10;
  empty.writeUInt16BE(pageBytes, 5);
  empty.copy(bytes, (page - 1) * pageBytes);
  writeFileSync(file, bytes);
}

/** An index that says of every row what is not so: a quick check counts its rows and looks no further. */
function misleadIndex(file: string): void {
  const sqlite = new Database(file);
  sqlite.unsafeMode();
  sqlite.pragma('writable_schema = ON');
  const change = sqlite.prepare("UPDATE sqlite_schema SET sql = replace(sql, 'happened_at', 'kind') WHERE name = 'entry_bin'").run();
  if (change.changes !== 1) throw new Error('Cannot mislead the index entry_bin as there is none');
  sqlite.close();
}

describe('F11: a store that was damaged while it is in use', () => {
  let cast: Cast;
  beforeAll(async () => {
    cast = await openCast();
  });
  afterAll(() => cast.close());

  it('is read whole once an hour, and served as ever while it is sound', async () => {
    const { keeper } = cast.app.middenry;
    expect(await keeper?.look()).toContain('read the whole store');
    expect(await keeper?.look()).not.toContain('read the whole store');
    later(cast, HOUR_MINUTES);
    expect(await keeper?.look()).toContain('read the whole store');
    expect((await harvest(cast)).status).toBe(201);
    expect((await cast.call('coordinator', 'GET', '/api/keep')).body.damage).toBeNull();
    await keeper?.look();
  });

  it('turns to reading only when the check finds it, keeps the file, names the newest backup, and makes no more copies', async () => {
    const { keeper } = cast.app.middenry;
    const before = entries(cast);
    loseIndex(join(cast.dir, 'cast.db'), 'entry_bin');
    later(cast, HOUR_MINUTES);
    await keeper?.look();
    const refused = await harvest(cast);
    expect(refused.status).toBe(503);
    expect(refused.body.code).toBe('store-damaged');
    // What only asks is answered, though its secret makes it a POST.
    expect((await cast.call(null, 'POST', '/api/invite-cards', { token: 'x'.repeat(43) })).status).toBe(404);
    expect(refused.headers['retry-after']).toBeDefined();
    const { damage, backups } = (await cast.call('coordinator', 'GET', '/api/keep')).body;
    expect(damage.words).toContain('integrity check');
    expect(damage.newestBackup).toMatch(/^own-.*\.db$/);
    expect(readFileSync(join(cast.dir, damage.keptAs)).length).toBeGreaterThan(0);
    expect((await cast.call('volunteer', 'GET', '/api/session')).body.damagedSince).toBe(damage.since);
    later(cast, HOUR_MINUTES);
    await keeper?.look();
    expect((await cast.call('coordinator', 'GET', '/api/keep')).body.backups).toBe(backups);
    expect(entries(cast)).toBe(before);
  });
});

describe('F11: sums of a store in which a page went wrong since the last check', () => {
  const FORMS = ['season?', 'season.csv?', 'season-report.csv?', 'season.xlsx?', 'season.pdf?', 'season-weeks?'].map(
    (form) => `/api/${form}from=2026-09-01&to=2026-11-30`,
  );
  let cast: Cast;
  let published: string;
  let link: string;
  beforeAll(async () => {
    cast = await openCast();
    expect((await harvest(cast)).status).toBe(201);
    const report = { id: freshId(), name: 'Autumn', from: '2026-09-01', to: '2026-11-30' };
    published = (await cast.call('coordinator', 'POST', '/api/published-seasons', report)).body.id;
    const made = await cast.call('coordinator', 'POST', '/api/links', { id: freshId(), kind: 'season', label: 'Sheet' });
    link = made.body.path;
    await cast.app.middenry.keeper?.look();
  });
  afterAll(() => cast.close());
  const all = () => [
    ...FORMS,
    ...['', '/report.csv', '/report.xlsx', '/report.pdf'].map((form) => `/api/published-seasons/${published}${form}`),
    ...['/api/export.zip', `/api/people/${PEOPLE.coordinator.id}/data.zip`, link],
  ];

  it('are given out while it is sound, and by nobody once it is not: the reader is told why, and no hour has to go by', async () => {
    const before = await Promise.all(all().map(async (url) => [url, (await cast.call('coordinator', 'GET', url)).status]));
    expect(before).toEqual(all().map((url) => [url, 200]));
    loseIndex(join(cast.dir, 'cast.db'), 'entry_bin');
    expect((await cast.call('coordinator', 'GET', '/api/session')).body.damagedSince).toBeNull();
    const after = await Promise.all(all().map((url) => cast.call('coordinator', 'GET', url)));
    expect(after.map(({ status, body }, at) => [all()[at], status, body?.code])).toEqual(all().map((url) => [url, 503, 'store-damaged']));
    expect(after[0]!.body.detail).toContain('not given out');
    const late = { id: freshId(), name: 'Late', from: '2026-09-01', to: '2026-11-30' };
    expect((await cast.call('coordinator', 'POST', '/api/published-seasons', late)).body.code).toBe('store-damaged');
  });

  it('are the same damage as any other: the banner, the copy, no more writing; the board is still served', async () => {
    expect((await cast.call('volunteer', 'GET', '/api/session')).body.damagedSince).not.toBeNull();
    expect((await cast.call('coordinator', 'GET', '/api/keep')).body.damage.words).toContain('integrity check');
    expect((await harvest(cast)).body.code).toBe('store-damaged');
    expect((await cast.call('volunteer', 'GET', '/api/board')).status).toBe(200);
  });
});

describe('F11: the check that sums wait for', () => {
  it('is one for all who ask at once, and is good as long as nobody writes into the file', async () => {
    const cast = await openCast();
    try {
      const begun: (() => void)[] = [];
      const check = () => new Promise<void>((end) => begun.push(end));
      const file = join(cast.dir, 'cast.db');
      const soundness = soundnessOf({ clock: cast.clock, file, backupDir: cast.dir, name: 'own', check });
      const asked = Array.from({ length: 8 }, () => soundness.sure());
      await setImmediate();
      // Whoever asks now has read meanwhile, and that check began before.
      const late = [soundness.sure(), soundness.sure()];
      await setImmediate();
      expect(begun).toHaveLength(1);
      begun[0]!();
      expect(await Promise.all(asked)).toEqual(Array(8).fill(true));
      await setImmediate();
      expect(begun).toHaveLength(2);
      begun[1]!();
      expect(await Promise.all([...late, soundness.sure()])).toEqual([true, true, true]);
      expect(begun).toHaveLength(2);
      expect((await harvest(cast)).status).toBe(201);
      const after = soundness.sure();
      await setImmediate();
      expect(begun).toHaveLength(3);
      begun[2]!();
      expect(await after).toBe(true);
    } finally {
      await cast.close();
    }
  });

  it('leaves an export that was begun in a sound store without its end when a page goes wrong meanwhile', async () => {
    const cast = await openCast();
    try {
      expect((await harvest(cast)).status).toBe(201);
      const { store, soundness } = cast.app.middenry;
      const signed = { ...cast.app.middenry, now: cast.clock.now(), audit: () => undefined } as never;
      // What is still in the log beside the file is read from there.
      store.sqlite.pragma('wal_checkpoint(TRUNCATE)');
      const { stream } = beginExport(signed);
      loseIndex(join(cast.dir, 'cast.db'), 'entry_bin');
      const pieces: Buffer[] = [];
      await expect(
        (async () => {
          for await (const piece of stream) pieces.push(piece as Buffer);
        })(),
      ).rejects.toThrow(/damaged|malformed/);
      // Signature of the record with which every zip ends.
      expect(Buffer.concat(pieces).includes(Buffer.from('PK\u0005\u0006', 'latin1'))).toBe(false);
      expect(soundness!.damage()).not.toBeNull();
    } finally {
      await cast.close();
    }
  });
});

test('F16: a store that is taken away under a running server: nothing more is said to be kept, and reads go on', async () => {
  const cast = await openCast();
  const file = join(cast.dir, 'cast.db');
  try {
    expect((await harvest(cast)).status).toBe(201);
    renameSync(file, `${file}.elsewhere`);
    expect((await harvest(cast)).body.code).toBe('store-damaged');
    // Another file in its place is not the one that is open.
    writeFileSync(file, readFileSync(`${file}.elsewhere`));
    expect((await harvest(cast)).body.code).toBe('store-damaged');
    expect((await cast.call('volunteer', 'GET', '/api/board')).status).toBe(200);
    expect((await cast.call('coordinator', 'GET', '/api/keep')).body.damage.words).toContain('no longer in its place');
  } finally {
    await cast.close();
  }
});

describe('F11: pages overwritten at random', () => {
  const folders = new Folders();
  // A demonstration that is not made yet is made outside of the tests' time.
  beforeAll(async () => void (await folders.withDemo()), 120_000);
  afterAll(() => folders.remove());

  it('are found by the check of every hour, and no changed total goes unfound', async () => {
    const dir = await folders.withDemo();
    const sound = join(dir, 'demo.db');
    const sqlite = new Database(sound);
    sqlite.pragma('wal_checkpoint(TRUNCATE)');
    sqlite.pragma('journal_mode = DELETE');
    sqlite.close();
    const below = seeded(20_261_125);
    const whole = FLIPS.filter((flip) => flip !== 'a few bytes');
    const results = whole.flatMap((flip) => [1, 2, 3, 4].map(() => flipAndRead(sound, join(dir, 'flipped.db'), flip, below)));
    expect(results.filter(({ found }) => !found)).toEqual([]);
    expect(results.filter(({ found, wrongTotals }) => wrongTotals && !found)).toEqual([]);
  });

  it('are found by a start before anything is served, also where only an index is wrong', async () => {
    const dir = await folders.withDemo();
    misleadIndex(join(dir, 'demo.db'));
    const { exitCode, text } = startRefused(dir);
    expect([exitCode, text]).toEqual([
      2,
      expect.stringMatching(/^middenry: Cannot open .*demo\.db as it is damaged \(.*entry_bin.*restore.*\n$/),
    ]);
  });
});
