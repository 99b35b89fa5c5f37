/** A backup from before an erasure is restored on a new machine: the list beside it takes out again whoever was erased since. */
import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { restoreCommand } from '../../apps/api/src/cli/restore.ts';
import { makeBackup } from '../../apps/api/src/db/keep/backup.ts';
import { erasureLists } from '../../apps/api/src/db/keep/erasures.ts';
import { drill, restore } from '../../apps/api/src/db/keep/restore.ts';
import { photoDirOf } from '../../apps/api/src/photos/shelf.ts';
import { BINS, type Cast, freshId, later, MIGRATIONS_DIR, openCast, PEOPLE, type PersonKey } from '../cast.ts';
import { consent } from './hostile/consent-samples.ts';
import { SMALL_JPEG } from './hostile/photo-samples.ts';
import { peopleInPhotos } from './people-in-photos.ts';

let cast: Cast;
let dir: string;
/** The backup folder of the new machine. */
let carried: string;
beforeEach(async () => {
  cast = await openCast();
  dir = join(cast.dir, 'backups');
  carried = join(cast.dir, 'new', 'backups');
});
afterEach(async () => {
  vi.unstubAllEnvs();
  vi.restoreAllMocks();
  await cast.close();
});

const OTIS = PEOPLE.volunteer;
const photoDir = () => photoDirOf(cast.app.middenry.config);
async function back(): Promise<string> {
  const { file } = await makeBackup(cast.store, { dir, name: 'own', kind: 'hourly', now: cast.clock.at, photoDir: photoDir() });
  cast.clock.at = new Date(cast.clock.at.getTime() + 60_000);
  return file;
}
const erase = (id: string) => cast.call('owner', 'DELETE', `/api/people/${id}`);
const list = () => JSON.parse(readFileSync(erasureLists(dir, 'own')[0]!, 'utf8'));
/** On a machine that has nothing but what was carried there. */
const onNewMachine = (backup: string) => {
  const file = join(cast.dir, 'new', 'own.db');
  const place = { file, migrationsDir: MIGRATIONS_DIR, copyDir: carried, photoDir: join(cast.dir, 'new', 'own-photos') };
  const done = restore({ backup: join(carried, basename(backup)), ...place, now: cast.clock.at });
  const sqlite = new Database(file, { readonly: true });
  const names = sqlite.prepare('SELECT name FROM person WHERE name IS NOT NULL ORDER BY id').pluck().all();
  const consents = sqlite.prepare('SELECT count(*) FROM consent WHERE withdrawn_at IS NULL').pluck().get();
  const photos = sqlite.prepare('SELECT id FROM photo').pluck().all();
  sqlite.close();
  return { again: done.again, otis: names.includes(OTIS.name), people: names.length, consents, photos };
};

describe('F9, C27: the list of erasures beside the backups', () => {
  it('is written at each erasure and withdrawal: ids and days, and no name of anybody', async () => {
    const id = freshId();
    await cast.call('otherVolunteer', 'POST', '/api/consents', consent(id, PEOPLE.otherVolunteer.id));
    await erase(OTIS.id);
    expect(list()).toMatchObject({ erased: [{ id: OTIS.id, on: '2026-11-25' }], withdrawn: [] });
    cast.clock.at = new Date('2026-11-27T10:00:00.000Z');
    await cast.call('otherVolunteer', 'DELETE', `/api/consents/${id}`);
    expect(list()).toEqual({
      ...{ writtenAt: '2026-11-27T10:00:00.000Z', programme: expect.any(String) },
      ...{ erased: [{ id: OTIS.id, on: '2026-11-25' }], withdrawn: [{ id, on: '2026-11-27' }], photosGone: [], marked: [] },
    });
    // Only the newest is kept, under a name of its own: a copy elsewhere may never write over what it has.
    expect(erasureLists(dir, 'own').map((file) => basename(file))).toEqual(['own-erased-2026-11-27T10-00-00-000Z.json']);
    const text = readFileSync(erasureLists(dir, 'own')[0]!, 'utf8');
    expect(Object.values(PEOPLE).filter(({ name }) => text.includes(name) || text.includes(name.split(' ')[0]!))).toEqual([]);
  });

  it('takes out again, on a new machine, whoever was erased after the backup, with consents that were withdrawn since', async () => {
    await cast.call('owner', 'PATCH', '/api/programme', { photosOfPeople: true });
    const [given, photo] = [freshId(), freshId()];
    await cast.call('volunteer', 'POST', '/api/consents', consent(freshId(), OTIS.id));
    await cast.call('otherVolunteer', 'POST', '/api/consents', consent(given, PEOPLE.otherVolunteer.id));
    const query = new URLSearchParams({
      binId: BINS.tote,
      takenAt: '2026-11-25T09:30:00Z',
      kind: 'bin',
      people: 'some',
      personIds: OTIS.id,
    });
    const sent = await cast.call('owner', 'PUT', `/api/photos/${photo}?${query}`, SMALL_JPEG, { 'content-type': 'image/jpeg' });
    expect(sent.status).toBe(201);
    const before = await back();
    await erase(OTIS.id);
    await cast.call('otherVolunteer', 'DELETE', `/api/consents/${given}`);
    cpSync(dir, carried, { recursive: true });
    expect(onNewMachine(before)).toEqual({
      again: { erased: 1, withdrawn: 2, photosGone: 1, marked: 0, knownUntil: cast.clock.at.toISOString() },
      ...{ otis: false, people: 6, consents: 0, photos: [] },
    });
  });

  it('C25: keeps off, on a new machine, photos that were taken off after the backup, and hides those in which somebody was seen since', async () => {
    await cast.call('owner', 'PATCH', '/api/programme', { photosOfPeople: true });
    const { give, send, sendOf, withdraw } = peopleInPhotos(() => cast);
    const photo = async (more: Record<string, string> = {}) => {
      const id = freshId();
      expect((await send('volunteer', id, { people: 'none', ...more })).status).toBe(201);
      return id;
    };
    const [stays, takenOff, seen, named, nobody] = [await photo(), await photo(), await photo(), await photo(), await photo()];
    const given = await give('volunteer', OTIS.id);
    const other = await give('otherVolunteer', PEOPLE.otherVolunteer.id);
    const shown = await sendOf(OTIS.id);
    const before = await back();
    expect((await cast.call('volunteer', 'DELETE', `/api/photos/${takenOff}`)).status).toBe(204);
    const people = (who: PersonKey, id: string, body: object) => cast.call(who, 'PUT', `/api/photos/${id}/people`, body);
    await people('volunteer', seen, { people: 'some', personIds: [] });
    await people('coordinator', named, { people: 'some', personIds: [PEOPLE.otherVolunteer.id] });
    // Said by mistake, and taken back: it stays a photo of nobody.
    await people('volunteer', nobody, { people: 'some', personIds: [] });
    await people('coordinator', nobody, { people: 'none', personIds: [] });
    await withdraw('volunteer', given);
    cpSync(dir, carried, { recursive: true });
    expect(onNewMachine(before)).toMatchObject({ again: { erased: 0, withdrawn: 1, photosGone: 1, marked: 2 } });
    const sqlite = new Database(join(cast.dir, 'new', 'own.db'), { readonly: true });
    const states = sqlite.prepare('SELECT photo_id, state FROM photo_showing').raw().all() as [string, string][];
    sqlite.close();
    expect(Object.fromEntries(states)).toEqual({
      ...{ [stays]: 'shown', [seen]: 'waiting', [named]: 'shown', [nobody]: 'shown', [shown]: 'hidden' },
    });
    expect(readdirSync(join(cast.dir, 'new', 'own-photos'))).toHaveLength(5);
    // In a store that has learnt of it, nobody has to know who is in a photo to hide it.
    await withdraw('otherVolunteer', other);
    rmSync(carried, { recursive: true });
    cpSync(dir, carried, { recursive: true });
    expect(onNewMachine(before)).toMatchObject({ again: { withdrawn: 2, photosGone: 1, marked: 2 } });
  });

  it('C25: a photo that is deleted by the days that have gone by, or with somebody who is erased, stays away too', async () => {
    await cast.call('owner', 'PATCH', '/api/programme', { photosOfPeople: true });
    const { give, sendOf, withdraw } = peopleInPhotos(() => cast);
    const given = await give('volunteer', OTIS.id);
    await give('otherVolunteer', PEOPLE.otherVolunteer.id);
    const ids = [await sendOf(OTIS.id), await sendOf(PEOPLE.otherVolunteer.id)];
    const before = await back();
    await withdraw('volunteer', given);
    await erase(PEOPLE.otherVolunteer.id);
    cast.clock.at = new Date('2026-12-25T10:00:00.000Z');
    await cast.app.middenry.keeper!.look();
    expect(
      list()
        .photosGone.map(({ id }: { id: string }) => id)
        .sort(),
    ).toEqual([...ids].sort());
    cpSync(dir, carried, { recursive: true });
    expect(onNewMachine(before)).toMatchObject({ again: { erased: 1, photosGone: 2 }, photos: [] });
  });

  it('is carried by later backups too; with neither, the restore says that nobody knows', async () => {
    const before = await back();
    await erase(OTIS.id);
    await back();
    cpSync(dir, carried, { recursive: true });
    rmSync(erasureLists(carried, 'own')[0]!);
    expect(onNewMachine(before)).toMatchObject({ again: { erased: 1, knownUntil: '2026-11-25T10:01:00.000Z' }, otis: false });
    rmSync(join(cast.dir, 'new'), { recursive: true });
    for (const tail of ['', '.json']) cpSync(before + tail, join(carried, basename(before) + tail));
    expect(onNewMachine(before)).toMatchObject({ again: { erased: 0, withdrawn: 0, photosGone: 0, knownUntil: null }, otis: true });
  });

  it('is of no use when it is damaged or of another programme, and is not believed', async () => {
    const before = await back();
    await erase(OTIS.id);
    const file = join(carried, basename(erasureLists(dir, 'own')[0]!));
    for (const text of [
      '{"erased"',
      '[]',
      JSON.stringify({ ...list(), programme: freshId() }),
      JSON.stringify({ ...list(), erased: [{}] }),
    ]) {
      rmSync(join(cast.dir, 'new'), { recursive: true, force: true });
      for (const tail of ['', '.json']) cpSync(before + tail, join(carried, basename(before) + tail));
      writeFileSync(file, text);
      expect([text.slice(0, 12), onNewMachine(before).again.knownUntil]).toEqual([text.slice(0, 12), null]);
    }
  });

  it('is not forgotten when an older store is put back, and the drill counts whoever it takes out', async () => {
    const before = await back();
    await erase(OTIS.id);
    await back();
    await erase(PEOPLE.disabled.id);
    later(cast, 60);
    expect(drill(before, MIGRATIONS_DIR, cast.clock.at)).toEqual({ ok: true, words: expect.stringContaining('all five totals equal') });
    await cast.app.middenry.keeper!.backUp('asked-for');
    expect(
      list()
        .erased.map(({ id }: { id: string }) => id)
        .sort(),
    ).toEqual([OTIS.id, PEOPLE.disabled.id].sort());
  });

  it('F9: the command says how many it erased again, or that it cannot know', async () => {
    const before = await back();
    await erase(OTIS.id);
    cpSync(dir, carried, { recursive: true });
    vi.stubEnv('DATA_DIR', join(cast.dir, 'new'));
    const said = vi.spyOn(console, 'log').mockReturnValue(undefined);
    const run = async () => {
      said.mockClear();
      await restoreCommand.run([join(carried, basename(before))]);
      return said.mock.calls.join('\n');
    };
    expect(await run()).toContain('Erased again 1 person and withdrew again 0 consents, by what is known until 2026-11-25.');
    for (const tail of ['', '-wal', '-shm']) rmSync(join(cast.dir, 'new', `own.db${tail}`), { force: true });
    rmSync(erasureLists(carried, 'own')[0]!);
    expect(await run()).toContain('There is no list of erasures beside the backup');
  });
});
