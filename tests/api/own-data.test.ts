/** Somebody takes along what is known of them, and is erased: the programme's figures stay as they are. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { tableNames, tableShape } from '../../apps/api/src/db/portable/shape.ts';
import { insertCredential } from '../../apps/api/src/db/repositories/credential.ts';
import { photoDirOf } from '../../apps/api/src/photos/shelf.ts';
import { NOT_OWN, OWN_TABLES } from '../../apps/api/src/services/own-data/own-tables.data.ts';
import { hashPassword } from '../../apps/api/src/services/password.ts';
import { BINS, type Cast, cookieIn, freshId, PASSWORD, PEOPLE, type PersonKey, SITES } from '../cast.ts';
import { anyFilesOf, exportTo, type Files, filesOf } from './export-zip.ts';
import { fingerprint, openStage, type Stage, stagesOf } from './hostile/stage.ts';

const stages = stagesOf(openStage);
const dir = mkdtempSync(join(tmpdir(), 'middenry-own-data-'));
let stage: Stage;
let cast: Cast;
beforeEach(async () => {
  stage = await stages.next();
  cast = stage.cast;
});
afterAll(async () => {
  await stages.close();
  rmSync(dir, { recursive: true, force: true });
});

const OTIS = PEOPLE.volunteer;
const ADDRESS = 'otis.canary@example.org';
let copies = 0;

async function exported(): Promise<Files> {
  copies += 1;
  const zip = join(dir, `all-${copies}.zip`);
  await exportTo(zip, { file: cast.store.sqlite.name, photoDir: photoDirOf(cast.app.middenry.config), now: cast.clock.at });
  return filesOf(zip);
}
const rowsIn = (files: Files, table: string): Record<string, unknown>[] => JSON.parse(files.get(`data/${table}.json`)!.toString('utf8'));
const seasonOf = async (who: PersonKey) => (await cast.call(who, 'GET', '/api/season?from=2026-11-01&to=2026-11-30')).body;

/** Says where else their name and their address stand, so that nothing of it is left by luck. */
async function leaveTraces(): Promise<void> {
  const put = (sql: string, ...values: unknown[]) => cast.store.sqlite.prepare(sql).run(...values);
  put(
    'INSERT OR REPLACE INTO message_setting (person_id, address, confirmed_at, mail) VALUES (?, ?, ?, 1)',
    OTIS.id,
    ADDRESS,
    '2026-11-01T10:00:00.000Z',
  );
  await cast.call('coordinator', 'PATCH', `/api/people/${OTIS.id}`, { email: ADDRESS, cleared: true });
  put("UPDATE castings_move SET kind = 'given-out', destination = 'beds', receiver = ?", OTIS.name.toUpperCase());
  const answers = JSON.stringify({ names: { person: { 'otis b': OTIS.id, maren: PEOPLE.otherVolunteer.id } } });
  const refused = JSON.stringify({ again: 0, refused: [{ row: 2, faults: [{ field: 'person', value: OTIS.name, reason: 'unknown' }] }] });
  put(
    'UPDATE sheet_import SET answers = ?, refused = ?, cells = ?',
    answers,
    refused,
    JSON.stringify([{ row: 2, cells: [OTIS.name, '900 g'] }]),
  );
  await cast.call('volunteer', 'PUT', `/api/people/${OTIS.id}/availability`, {
    weekly: [{ weekday: 6, from: '09:00', to: '12:00', liking: 'glad' }],
  });
  const past = '2026-11-20T10:00:00.000Z';
  const shift = {
    id: freshId(),
    siteId: SITES.meadow,
    title: 'Round',
    localDate: '2026-11-20',
    localTime: '10:00',
    minutes: 90,
    places: 2,
  };
  expect((await cast.call('coordinator', 'POST', '/api/shifts', shift)).status).toBe(201);
  put(
    'INSERT INTO sign_up (id, shift_id, person_id, taken_at, attended, minutes) VALUES (?, ?, ?, ?, 1, 75)',
    freshId(),
    shift.id,
    OTIS.id,
    past,
  );
  const harvest = { id: freshId(), binId: BINS.tote, happenedAt: '2026-11-24T11:00:00Z', massKg: 1.234, destination: 'beds' };
  expect((await cast.call('volunteer', 'POST', '/api/harvests', harvest)).status).toBe(201);
}

describe('GET /api/people/:id/data.zip', () => {
  it('C27: gives all of mine as CSV and JSON that fit together, and of nobody else a name, an id or an address', async () => {
    await leaveTraces();
    const answer = await cast.app.inject({ url: `/api/people/${OTIS.id}/data.zip`, headers: { cookie: cast.cookie('volunteer') } });
    expect([answer.statusCode, answer.headers['content-disposition']]).toEqual([200, 'attachment; filename="my-data-2026-11-25.zip"']);
    const files = await anyFilesOf(answer.rawPayload);
    const { tables } = JSON.parse(files.get('my-data.json')!.toString('utf8'));
    expect(tables.person).toEqual([expect.objectContaining({ id: OTIS.id, name: OTIS.name, email: ADDRESS })]);
    expect(tables.entry.map(({ kind }: { kind: string }) => kind).sort()).toEqual(['feeding', 'harvest']);
    expect(tables.feeding_item).toEqual([expect.objectContaining({ entry_id: stage.feedingId, grams: 500 })]);
    expect(tables.sign_up).toContainEqual(expect.objectContaining({ id: stage.signUpId }));
    expect(tables.shift.map(({ id }: { id: string }) => id)).toEqual(expect.arrayContaining([stage.shiftId, stage.schoolShiftId]));
    for (const [table, rows] of Object.entries(tables as Record<string, object[]>)) {
      const csv = parse(files.get(`tables/${table}.csv`)!, { columns: true, bom: true }) as object[];
      expect([table, csv.length, Object.keys(csv[0]!)]).toEqual([table, rows.length, Object.keys(rows[0]!)]);
    }
    expect([...files.keys()].filter((name) => name.startsWith('photos/'))).toHaveLength(2);
    const all = [...files.values()].map((bytes) => bytes.toString('latin1')).join('\n');
    const others = Object.values(PEOPLE).filter(({ id }) => id !== OTIS.id);
    expect(others.flatMap(({ id, name }) => [id, name]).filter((word) => all.includes(word))).toEqual([]);
    for (const secret of ['$argon2', 'token_hash', 'Ivo K.', 'ingrid@example.org']) expect(all).not.toContain(secret);
  });

  it('C28: a coordinator sees what is known of a pupil, and the audit tells who looked', async () => {
    const answer = await cast.app.inject({
      url: `/api/people/${PEOPLE.pupil.id}/data.zip`,
      headers: { cookie: cast.cookie('coordinator') },
    });
    const files = await anyFilesOf(answer.rawPayload);
    expect(JSON.parse(files.get('my-data.json')!.toString('utf8')).tables.person).toEqual([
      expect.objectContaining({ name: PEOPLE.pupil.name, email: null, is_adult: 0 }),
    ]);
    const [line] = (await cast.call('owner', 'GET', '/api/audit?limit=1')).body.items;
    expect(line).toMatchObject({ action: 'person-data-taken', subject: PEOPLE.pupil.id, by: { id: PEOPLE.coordinator.id } });
  });

  it('C27: knows every column of the store that can name a person', () => {
    const { sqlite } = cast.store;
    const naming = tableNames(sqlite).flatMap((table) => {
      const { columns, references } = tableShape(sqlite, table);
      const pointing = references.filter((one) => one.table === 'person').map(({ column }) => column);
      const named = columns.map(({ name }) => name).filter((name) => name === 'person_id');
      return [...new Set([...pointing, ...named])].map((column) => `${table}.${column}`);
    });
    const own = OWN_TABLES.flatMap(({ table, mine = [] }) => mine.map((column) => `${table}.${column}`));
    expect(naming.filter((column) => !own.includes(column) && NOT_OWN[column] === undefined)).toEqual([]);
    expect(Object.keys(NOT_OWN).filter((column) => !naming.includes(column))).toEqual([]);
  });
});

/** Tables that say something of the person alone, or of places that they hold no longer. */
const MAY_CHANGE = new Set([
  ...['person', 'membership', 'message', 'message_setting', 'person_time', 'person_wish', 'rota_proposal', 'wish_list', 'wish'],
  ...['audit', 'sign_up', 'swap', 'waiting', 'sheet_import', 'castings_move', 'consent'],
]);

/** Nothing that still waits on it is taken, and it learns why. */
async function phoneIsTold(cookie: string): Promise<void> {
  const body = { binId: BINS.tote, happenedAt: '2026-11-25T09:00:00Z', note: 'Still on my phone', id: freshId() };
  const batch = { personId: OTIS.id, deviceAt: '2026-11-25T10:00:00Z', entries: [{ kind: 'note', keptAt: '2026-11-25T09:00:00Z', body }] };
  const answer = await cast.call(null, 'POST', '/api/entries/batch', batch, { cookie });
  expect([answer.status, answer.body.code]).toEqual([410, 'erased']);
  expect((await cast.call(null, 'GET', '/api/session', undefined, { cookie })).body.person).toBeNull();
  expect(cast.store.sqlite.prepare('SELECT count(*) FROM entry WHERE id = ?').pluck().get(body.id)).toBe(0);
}

describe('erasing somebody', () => {
  it('C27: leaves every log and every total of the season as it was, and nothing of them anywhere in the export', async () => {
    await leaveTraces();
    const before = { files: await exported(), season: await seasonOf('coordinator') };
    expect(JSON.stringify(before.season)).toMatch(/1\.?234\D.*"minutes":75/);
    expect((await cast.call('coordinator', 'DELETE', `/api/people/${OTIS.id}`)).status).toBe(204);
    const after = { files: await exported(), season: await seasonOf('coordinator') };
    expect(after.season).toEqual(before.season);
    const tables = [...before.files.keys()].filter((name) => name.startsWith('data/')).map((name) => name.slice(5, -5));
    const changed = tables.filter((table) => !after.files.get(`data/${table}.json`)!.equals(before.files.get(`data/${table}.json`)!));
    expect(changed.filter((table) => !MAY_CHANGE.has(table))).toEqual([]);
    expect(changed).toContain('person_time');
    expect(rowsIn(after.files, 'person').find(({ id }) => id === OTIS.id)).toMatchObject({
      name: null,
      email: null,
      disabled: 1,
      cleared_at: null,
    });
    const grams = (files: Files) => rowsIn(files, 'castings_move').reduce((sum, row) => sum + Number(row.grams), 0);
    expect(grams(after.files)).toBe(grams(before.files));
    const words = [...after.files.values()].map((bytes) => bytes.toString('latin1').toLowerCase()).join('\n');
    expect([OTIS.name, ADDRESS, 'otis b'].filter((word) => words.includes(word.toLowerCase()))).toEqual([]);
    expect([OTIS.name, ADDRESS].filter((word) => ![...before.files.values()].some((bytes) => bytes.includes(word)))).toEqual([]);
  });

  it('C27: is told in the audit and to their phone; what they noted is by nobody any more; calendar, places and devices are gone', async () => {
    const cookie = cast.cookie('volunteer');
    const { path } = (await cast.call('volunteer', 'POST', '/api/calendar-links', { id: freshId(), label: 'Phone' })).body;
    expect((await cast.call(null, 'GET', path)).status).toBe(200);
    expect((await cast.call('coordinator', 'DELETE', `/api/people/${OTIS.id}`)).status).toBe(204);
    expect((await cast.call(null, 'GET', path)).status).toBe(404);
    const { items } = (await cast.call('otherVolunteer', 'GET', `/api/bins/${BINS.tote}/entries`)).body;
    expect(items.find(({ id }: { id: string }) => id === stage.feedingId)).toMatchObject({ by: null });
    const { signUps } = (await cast.call('coordinator', 'GET', `/api/shifts/${stage.shiftId}`)).body;
    expect(signUps.map(({ personId }: { personId: string }) => personId)).not.toContain(OTIS.id);
    const [line] = (await cast.call('owner', 'GET', '/api/audit?limit=1')).body.items;
    expect(line).toMatchObject({
      action: 'person-erased',
      subject: OTIS.id,
      by: { id: PEOPLE.coordinator.id },
      detail: { placesGivenBack: 2 },
    });
    await phoneIsTold(cookie);
    const people = (await cast.call('owner', 'GET', '/api/people')).body.items;
    expect(people.map(({ id }: { id: string }) => id)).not.toContain(OTIS.id);
    expect((await cast.call('owner', 'DELETE', `/api/people/${OTIS.id}`)).status).toBe(404);
  });

  it('C27: happens whole or not at all, and never to the last owner', async () => {
    await withPassword(PEOPLE.owner.id);
    const everything = () => fingerprint(cast.store);
    const before = everything();
    const refused = await cast.call('owner', 'POST', '/api/me/erased', { password: PASSWORD });
    expect([refused.status, refused.body.code, everything() === before]).toEqual([409, 'last-owner', true]);
    const overreach = await cast.call('coordinator', 'DELETE', `/api/people/${PEOPLE.owner.id}`);
    const oneself = await cast.call('coordinator', 'DELETE', `/api/people/${PEOPLE.coordinator.id}`);
    expect([overreach.status, oneself.status, everything() === before]).toEqual([403, 403, true]);
  });

  async function withPassword(personId: string): Promise<void> {
    cast.store.sqlite.prepare("DELETE FROM credential WHERE person_id = ? AND kind <> 'passkey'").run(personId);
    insertCredential(cast.store, {
      personId,
      kind: 'password',
      secret: await hashPassword(PASSWORD),
      createdAt: '2026-11-01T10:00:00.000Z',
    });
  }

  it('C27: myself, by my password and nothing less', async () => {
    await withPassword(PEOPLE.coordinator.id);
    const tries = [{}, { code: '123456' }, { password: 'not my password at all' }, { password: PASSWORD }];
    const answers = [];
    for (const body of tries) answers.push((await cast.call('coordinator', 'POST', '/api/me/erased', body)).status);
    expect(answers).toEqual([422, 422, 401, 204]);
    expect((await cast.call('coordinator', 'GET', '/api/people')).body.code).toBe('erased');
  });

  it('C27: myself, by a code of my coordinator or of my other device, and not by one that this device made', async () => {
    const erase = (code: string, cookie: string) => cast.call(null, 'POST', '/api/me/erased', { code }, { cookie });
    const phone = cast.cookie('volunteer');
    const own = (await cast.call('volunteer', 'POST', '/api/device-codes', {})).body.code;
    expect((await erase(own, phone)).body.code).toBe('code-wrong');
    const tablet = cookieIn(await cast.call(null, 'POST', '/api/session/device', { code: own }));
    const other = (await cast.call(null, 'POST', '/api/device-codes', {}, { cookie: tablet })).body.code;
    const maren = (await cast.call('coordinator', 'POST', '/api/device-codes', { personId: PEOPLE.otherVolunteer.id })).body.code;
    expect((await erase(maren, phone)).body.code).toBe('code-wrong');
    expect((await erase(other, phone)).status).toBe(204);
    const ofCoordinator = (await cast.call('coordinator', 'POST', '/api/device-codes', { personId: PEOPLE.siteLead.id })).body.code;
    expect((await erase(ofCoordinator, cast.cookie('siteLead'))).status).toBe(204);
  });

  it('C27: nobody who only looks round in the demonstration', async () => {
    const visitor = cookieIn(await cast.call(null, 'POST', '/api/session/demo', { as: 'volunteer' }));
    expect((await cast.call(null, 'POST', '/api/me/erased', { code: 'ABCD123456' }, { cookie: visitor })).body.code).toBe('not-in-demo');
  });
});
