/** An export from before an erasure is brought back: whoever was erased since stays erased, as far as this place knows (criteria C27, G1). */
import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { importCommand } from '../../apps/api/src/cli/import.ts';
import { erasureLists } from '../../apps/api/src/db/keep/erasures.ts';
import { photoDirOf } from '../../apps/api/src/photos/shelf.ts';
import { type Cast, cookieIn, freshId, openCast, openEmpty, PASSWORD, PEOPLE } from '../cast.ts';
import { exportTo } from './export-zip.ts';
import { peopleInPhotos } from './people-in-photos.ts';

const OTIS = PEOPLE.volunteer;
const EMAIL = 'ingrid@example.org';
let cast: Cast;
let zip: string;
let photos: { stays: string; takenOff: string; ofOtis: string };
/** The list as it lies beside the backups of the machine on which the erasure was. */
let list: string;
beforeEach(async () => {
  cast = await openCast();
  cast.store.sqlite.prepare('UPDATE person SET email = ? WHERE id = ?').run(EMAIL, PEOPLE.owner.id);
  await cast.call('owner', 'PATCH', '/api/programme', { photosOfPeople: true });
  const { give, send, sendOf } = peopleInPhotos(() => cast);
  const of = async () => {
    const id = freshId();
    expect((await send('volunteer', id, { people: 'none' })).status).toBe(201);
    return id;
  };
  await give('volunteer', OTIS.id);
  photos = { stays: await of(), takenOff: await of(), ofOtis: await sendOf(OTIS.id) };
  zip = join(cast.dir, 'before.zip');
  await exportTo(zip, { file: cast.store.sqlite.name, photoDir: photoDirOf(cast.app.middenry.config), now: cast.clock.at });
  await cast.call('coordinator', 'DELETE', `/api/photos/${photos.takenOff}`);
  expect((await cast.call('owner', 'DELETE', `/api/people/${OTIS.id}`)).status).toBe(204);
  list = erasureLists(join(cast.dir, 'backups'), 'own')[0]!;
});
afterEach(async () => {
  vi.unstubAllEnvs();
  vi.restoreAllMocks();
  await cast.close();
});

function whatIsBack(dir: string, file: string) {
  const sqlite = new Database(join(dir, file), { readonly: true });
  try {
    const names = sqlite.prepare('SELECT name FROM person WHERE name IS NOT NULL').pluck().all();
    const kept = sqlite.prepare('SELECT id FROM photo ORDER BY id').pluck().all();
    return { otis: names.includes(OTIS.name), people: names.length, photos: kept, files: readdirSync(join(dir, 'own-photos')).length };
  } finally {
    sqlite.close();
  }
}
const WITHOUT = () => ({ otis: false, people: 6, photos: [photos.stays], files: 1 });
const WITH = () => ({ otis: true, people: 7, photos: Object.values(photos).sort(), files: 3 });

describe('C27: import', () => {
  const run = async (dir: string, ...more: string[]) => {
    vi.stubEnv('DATA_DIR', dir);
    vi.stubEnv('OWN', 'yes');
    const said = vi.spyOn(console, 'log').mockReturnValue(undefined);
    await importCommand.run([zip, ...more]);
    return said.mock.calls.join('\n');
  };

  it('into a folder that was emptied but for its backups leaves out whoever was erased there', async () => {
    const dir = join(cast.dir, 'emptied');
    mkdirSync(join(dir, 'backups'), { recursive: true });
    cpSync(list, join(dir, 'backups', basename(list)));
    expect(await run(dir)).toContain('Erased again 1 person and withdrew again 1 consent');
    expect(whatIsBack(dir, 'own.db')).toEqual(WITHOUT());
  });

  it('takes a list that is handed over; a fresh machine without one says that nobody can know', async () => {
    const [given, fresh] = [join(cast.dir, 'given'), join(cast.dir, 'fresh')];
    await run(given, list);
    expect(whatIsBack(given, 'own.db')).toEqual(WITHOUT());
    expect(await run(fresh)).toContain('There is no list of erasures of this programme here');
    expect(whatIsBack(fresh, 'own.db')).toEqual(WITH());
  });

  it('refuses a file that is no list, and takes no notice of one of another programme', async () => {
    const [bad, other] = [join(cast.dir, 'bad.json'), join(cast.dir, 'other.json')];
    writeFileSync(bad, '{"erased": 1}');
    await expect(run(join(cast.dir, 'refused'), bad)).rejects.toThrow(/is no list of erasures/);
    writeFileSync(other, JSON.stringify({ ...JSON.parse(readFileSync(list, 'utf8')), programme: freshId() }));
    const dir = join(cast.dir, 'another');
    await run(dir, other);
    expect(whatIsBack(dir, 'own.db')).toEqual(WITH());
  });
});

it('C27: in the browser too the list beside the backups is heeded, and the audit says how many it took out', async () => {
  const here = await openEmpty({ env: { OWN: 'yes' } });
  try {
    mkdirSync(join(here.dir, 'backups'), { recursive: true });
    cpSync(list, join(here.dir, 'backups', basename(list)));
    const bytes = readFileSync(zip);
    const ask = (method: 'POST' | 'PUT', url: string, payload: object) =>
      here.app.inject({
        method,
        url,
        payload,
        headers: { 'content-type': Buffer.isBuffer(payload) ? 'application/zip' : 'application/json' },
      });
    const id = freshId();
    await ask('POST', '/api/setup/exports', { id, code: here.setupWords, bytes: bytes.length });
    await ask('PUT', `/api/setup/exports/${id}?at=0`, bytes);
    const taken = await ask('POST', `/api/setup/exports/${id}/taken`, { code: here.setupWords, email: EMAIL, password: PASSWORD });
    expect([taken.statusCode, cookieIn(taken as never) === '']).toEqual([201, false]);
    expect(whatIsBack(here.dir, basename(here.store.sqlite.name))).toEqual(WITHOUT());
    const detail = here.store.sqlite.prepare("SELECT detail FROM audit WHERE action = 'programme.returned'").pluck().all() as string[];
    expect(detail.map((one) => JSON.parse(one).erasedAgain)).toContain(1);
  } finally {
    await here.close();
  }
});
