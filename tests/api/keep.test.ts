import { copyFileSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { RELEASE_HEADER } from '@middenry/contract';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type BackupFile, dropOldBackups, kept, listBackups, makeBackup } from '../../apps/api/src/db/keep/backup.ts';
import { differences, factsOf, lacking, leastFactsOf } from '../../apps/api/src/db/keep/facts.ts';
import { drill, provenFacts, restore } from '../../apps/api/src/db/keep/restore.ts';
import { clearAway } from '../../apps/api/src/db/keep/retention.ts';
import { manifestOf } from '../../apps/api/src/db/keep/verify.ts';
import { openStore } from '../../apps/api/src/db/open.ts';
import { erasePerson } from '../../apps/api/src/db/repositories/erasure.ts';
import { BINS, type Cast, freshId, MIGRATIONS_DIR, openCast, PEOPLE, SITES } from '../cast.ts';

let cast: Cast;
let dir: string;
beforeEach(async () => {
  cast = await openCast();
  dir = join(cast.dir, 'backups');
});
afterEach(() => cast.close());

const back = () => makeBackup(cast.store, { dir, name: 'own', kind: 'hourly', now: cast.clock.at });
const harvest = (massKg: number) =>
  cast.call('volunteer', 'POST', '/api/harvests', {
    id: freshId(),
    binId: BINS.tote,
    happenedAt: '2026-11-25T09:00:00Z',
    massKg,
    destination: 'beds',
  });
const atHour = (hour: number) => {
  cast.clock.at = new Date(Date.UTC(2026, 10, 25, hour));
};

describe('makeBackup()', () => {
  it('F7: holds everything that was there, is sound, and says so beside it', async () => {
    await harvest(1.5);
    const { file, manifest } = await back();
    expect(manifest.facts.totals.harvestedG).toBe(1500);
    expect(differences(provenFacts(file), factsOf(cast.store.sqlite))).toEqual([]);
    expect(readdirSync(dir).sort()).toEqual([file, manifestOf(file)].map((path) => path.slice(dir.length + 1)).sort());
  });

  it('PR8: lacking() catches a copy of the main file alone, which every integrity check calls sound', async () => {
    cast.store.sqlite.pragma('wal_checkpoint(TRUNCATE)');
    await harvest(1.5);
    const copy = join(cast.dir, 'copy.db');
    copyFileSync(join(cast.dir, 'cast.db'), copy);
    const sqlite = new Database(copy);
    expect(sqlite.pragma('integrity_check', { simple: true })).toBe('ok');
    expect(lacking(factsOf(sqlite), leastFactsOf(cast.store.sqlite)).join()).toMatch(/^change \d+ instead of \d+/);
    sqlite.close();
  });

  it('PR12: leaves nothing behind when it fails, and keeps the name for whole ones', async () => {
    cast.store.sqlite.pragma('foreign_keys = OFF');
    cast.store.sqlite.prepare("UPDATE bin SET site_id = '00000000-0000-0000-0000-000000000000'").run();
    await expect(back()).rejects.toThrow(/rows point at nothing/);
    expect(readdirSync(dir)).toEqual([]);
  });
});

describe('keeper', () => {
  it('F7: backs up when something changed and an hour has passed, and not otherwise', async () => {
    const { keeper } = cast.app.middenry;
    const backups = () => listBackups(dir, 'own').length;
    await keeper!.look();
    expect(backups()).toBe(1);
    atHour(14);
    await keeper!.look();
    expect(backups()).toBe(1);
    await harvest(1);
    await keeper!.look();
    expect(backups()).toBe(2);
    await harvest(1);
    await keeper!.look();
    expect(backups()).toBe(2);
  });

  it('F9: restores the newest backup by itself once a month and says how it went', async () => {
    const { keeper } = cast.app.middenry;
    await keeper!.look();
    const first = keeper!.status();
    expect(first.lastDrill).toMatchObject({ ok: true, words: expect.stringContaining('all five totals equal') });
    expect(first.drillOverdue).toBe(false);
    cast.clock.at = new Date('2026-12-31T10:00:00Z');
    expect(keeper!.status().drillOverdue).toBe(true);
    await keeper!.look();
    expect(keeper!.status()).toMatchObject({ drillOverdue: false, lastDrill: { at: '2026-12-31T10:00:00.000Z' } });
  });

  it('F13: keeps serving and says why when the backup cannot be made', async () => {
    writeFileSync(dir, 'in the way');
    const { status, body } = await cast.call('coordinator', 'POST', '/api/keep/backups', {});
    expect([status, body.code]).toEqual([503, 'unavailable']);
    rmSync(dir);
    expect((await cast.call('coordinator', 'GET', '/api/keep')).body.lastFault).toMatch(/EEXIST|ENOTDIR/);
    expect((await harvest(1)).status).toBe(201);
  });
});

describe('kept()', () => {
  it('keeps 24 hours, 14 days and 11 weeks, and nothing beyond 90 days', () => {
    const newest = Date.UTC(2026, 10, 25, 12);
    const hours = Array.from({ length: 24 * 120 }, (_, hour) => new Date(newest - hour * 3_600_000).toISOString());
    const backups = hours.map((madeAt) => ({ file: madeAt, manifest: { madeAt } }) as BackupFile);
    const stays = [...kept(backups)].sort().reverse();
    expect(stays.slice(0, 24)).toEqual(hours.slice(0, 24));
    expect(new Set(stays.map((at) => at.slice(0, 10))).size).toBeGreaterThanOrEqual(14);
    expect(stays.length).toBeLessThanOrEqual(24 + 14 + 11);
    // 90 days before the newest, and not less than two months.
    expect(stays.at(-1)! >= '2026-08-27').toBe(true);
    expect(stays.at(-1)! < '2026-09-25').toBe(true);
  });

  it('dropOldBackups() drops the rest with what stands beside them', async () => {
    for (const hour of [1, 1.5, 2]) {
      atHour(hour);
      cast.clock.at = new Date(Date.UTC(2026, 10, 25, 0, hour * 60));
      await back();
    }
    expect(dropOldBackups(dir, 'own')).toEqual(['own-2026-11-25T01-00-00-000Z.db']);
    expect(readdirSync(dir)).toHaveLength(4);
  });
});

describe('restore()', () => {
  const into = () => ({ file: join(cast.dir, 'restored', 'own.db'), migrationsDir: MIGRATIONS_DIR, copyDir: dir, now: cast.clock.at });

  it('F10: brings everything back, in WAL, with sessions, codes and open invites ended', async () => {
    await harvest(2.25);
    cast.cookie('volunteer');
    await cast.call('owner', 'POST', '/api/invites', { id: freshId(), role: 'volunteer' });
    await cast.call('owner', 'POST', '/api/device-codes', { personId: PEOPLE.volunteer.id });
    const { file: backup } = await back();
    const { facts } = restore({ backup, ...into() });
    expect(facts.totals.harvestedG).toBe(2250);
    const { sqlite } = openStore({ file: into().file });
    const count = (sql: string) => sqlite.prepare(sql).pluck().get();
    expect(sqlite.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(count('SELECT count(*) FROM sign_in_session WHERE ended_at IS NULL')).toBe(0);
    expect(count('SELECT count(*) FROM device_code')).toBe(0);
    expect(count('SELECT count(*) FROM invite WHERE revoked_at IS NULL')).toBe(0);
    expect(count('SELECT count(*) FROM applied_client_id')).toBe(facts.rows.applied_client_id);
    expect(count('SELECT action FROM audit ORDER BY id DESC LIMIT 1')).toBe('restored');
    sqlite.close();
  });

  it('C27: whoever was erased since the backup stays erased, and holds no place to come', async () => {
    const shift = {
      id: freshId(),
      siteId: SITES.meadow,
      title: 'Round',
      localDate: '2026-12-05',
      localTime: '10:00',
      minutes: 60,
      places: 2,
    };
    await cast.call('owner', 'POST', '/api/shifts', shift);
    await cast.call('volunteer', 'POST', `/api/shifts/${shift.id}/sign-ups`, { id: freshId() });
    const { file: backup } = await back();
    restore({ backup, ...into() });
    const since = openStore({ file: into().file });
    erasePerson(since, PEOPLE.volunteer.id, '2026-11-25T11:00:00.000Z');
    since.sqlite.close();
    restore({ backup, ...into() });
    const { sqlite } = openStore({ file: into().file });
    const of = (sql: string) => sqlite.prepare(sql).pluck().get(PEOPLE.volunteer.id);
    expect([of('SELECT name FROM person WHERE id = ?'), of('SELECT erased_at FROM person WHERE id = ?')]).toEqual([
      null,
      // Of the list only the day is known.
      '2026-11-25T00:00:00.000Z',
    ]);
    expect(of('SELECT count(*) FROM sign_up WHERE person_id = ? AND given_back_at IS NULL')).toBe(0);
    expect(sqlite.prepare("SELECT detail FROM audit WHERE action = 'restored'").pluck().all().at(-1)).toBe(
      '{"erasedAgain":1,"withdrawnAgain":0,"photosTakenOffAgain":0,"photosMarkedAgain":0}',
    );
    expect(sqlite.prepare('SELECT count(*) FROM person WHERE name IS NULL').pluck().get()).toBe(1);
    sqlite.close();
  });

  it('keeps what was there before, its newest entries too', async () => {
    const { file: backup } = await back();
    restore({ backup, ...into() });
    const now = openStore({ file: into().file });
    now.sqlite.prepare("UPDATE programme SET name = 'Changed after'").run();
    now.sqlite.close();
    const { before } = restore({ backup, ...into() });
    const old = new Database(before!, { readonly: true });
    expect(old.prepare('SELECT name FROM programme').pluck().get()).toBe('Changed after');
    old.close();
  });

  it('refuses a backup of which one byte was changed, and touches nothing', async () => {
    const { file: backup } = await back();
    const bytes = readFileSync(backup);
    bytes[bytes.length - 7]! ^= 1;
    writeFileSync(backup, bytes);
    expect(() => restore({ backup, ...into() })).toThrow();
    expect(() => readFileSync(into().file)).toThrow(/ENOENT/);
    expect(drill(backup, MIGRATIONS_DIR, cast.clock.at)).toMatchObject({
      ok: false,
      words: expect.stringContaining('could not be restored'),
    });
  });
});

describe('clearAway()', () => {
  it('C26: ends what has been kept long enough, and nothing when the clock is plainly wrong', async () => {
    cast.cookie('volunteer');
    await cast.call('owner', 'POST', '/api/invites', { id: freshId(), role: 'volunteer' });
    const rows = (table: string) => factsOf(cast.store.sqlite).rows[table];
    expect(clearAway(cast.store, new Date('1970-01-01T00:00:00Z'))).toBe(0);
    clearAway(cast.store, new Date('2026-12-20T10:00:00Z'));
    expect([rows('invite'), rows('sign_in_session')! > 0]).toEqual([1, true]);
    clearAway(cast.store, new Date('2028-01-01T10:00:00Z'));
    expect([rows('invite'), rows('sign_in_session'), rows('audit'), rows('applied_client_id')]).toEqual([0, 0, 1, 0]);
    expect(cast.store.sqlite.prepare('SELECT action FROM audit').pluck().all()).toEqual(['pupil-erased']);
    expect(rows('person')).toBe(Object.keys(PEOPLE).length);
  });
});

describe('GET /api/audit', () => {
  it('E20: reads who did what, newest first, page by page', async () => {
    await cast.call('owner', 'PATCH', `/api/people/${PEOPLE.volunteer.id}`, {
      role: 'site-lead',
      siteIds: [(await cast.call('owner', 'GET', '/api/sites')).body.items[0].id],
    });
    const first = await cast.call('coordinator', 'GET', '/api/audit?limit=2');
    expect(first.body.items[0]).toMatchObject({ action: 'person-changed', by: { name: 'Ingrid Halloway' }, detail: { role: 'site-lead' } });
    expect(first.body.more).toBe(true);
    const next = await cast.call('coordinator', 'GET', `/api/audit?limit=2&before=${first.body.items[1].id}`);
    expect(next.body.items[0].id).toBe(first.body.items[1].id - 1);
  });

  it('E20: cannot be changed, not even from inside', () => {
    expect(() => cast.store.sqlite.prepare("UPDATE audit SET action = 'nothing'").run()).toThrow(/append-only/);
  });
});

describe('links', () => {
  it('show the board to whoever has one, until it is taken back', async () => {
    const id = freshId();
    const made = await cast.call('coordinator', 'POST', '/api/links', { id, kind: 'board', label: 'Shed door' });
    const token = made.body.path.split('#').at(-1);
    expect(token).toMatch(/^[\w-]{43}$/);
    const board = await cast.call(null, 'POST', '/api/linked-boards', { token });
    expect(board.body.bins).toHaveLength(3);
    // A screen that was open for years goes on: it changes nothing, however old its page is.
    const old = await cast.call(null, 'POST', '/api/linked-boards', { token }, { [RELEASE_HEADER]: '999' });
    expect([old.status, old.body.bins.length]).toEqual([200, 3]);
    for (const { name } of Object.values(PEOPLE)) expect(board.text).not.toContain(name);
    expect(cast.store.sqlite.prepare('SELECT count(*) FROM link WHERE token_hash = ?').pluck().get(token)).toBe(0);
    await cast.call('coordinator', 'DELETE', `/api/links/${id}`);
    expect((await cast.call(null, 'POST', '/api/linked-boards', { token })).status).toBe(404);
  });

  it('C16: show a spreadsheet the totals of its site, no names and not too often, until taken back', async () => {
    const id = freshId();
    const body = { id, kind: 'season', siteId: SITES.meadow };
    const { path } = (await cast.call('coordinator', 'POST', '/api/links', body)).body;
    expect(path).toMatch(/^\/season-link\/[\w-]{43}\.csv$/);
    const span = 'from=2026-01-01&to=2026-12-31&profile=data';
    const linked = await cast.call(null, 'GET', `${path}?${span}`);
    const own = await cast.call('siteLead', 'GET', `/api/season.csv?${span}&siteId=${SITES.meadow}`);
    expect([linked.status, linked.text, linked.headers['content-type']]).toEqual([200, own.text, 'text/csv; charset=utf-8']);
    expect([linked.headers['referrer-policy'], linked.headers['x-robots-tag']]).toEqual(['no-referrer', 'noindex']);
    for (const { name } of Object.values(PEOPLE)) expect(linked.text).not.toContain(name);
    const token = path.slice('/season-link/'.length, -'.csv'.length);
    expect((await cast.call(null, 'POST', '/api/linked-boards', { token })).status).toBe(404);
    expect((await cast.call(null, 'GET', `${path}?from=2030-01-01`)).status).toBe(422);
    const statuses = [];
    for (let n = 0; n < 60; n += 1) statuses.push((await cast.call(null, 'GET', `${path}?from=2026-11-25`)).status);
    // Sixty an hour, and two were asked for above.
    expect([statuses.filter((status) => status === 200).length, statuses.at(-1)]).toEqual([58, 429]);
    await cast.call('coordinator', 'DELETE', `/api/links/${id}`);
    expect((await cast.call(null, 'GET', path)).status).toBe(404);
  });
});
