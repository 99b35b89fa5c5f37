/** An export brought back through HTTP (criteria G1, G4, G11). What is wrong inside a zip is tried in export.test.ts. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { type AddressInfo, connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { photoDirOf } from '../../apps/api/src/photos/shelf.ts';
import { cookieIn, freshId, openEmpty, PASSWORD, PEOPLE, setUpSecondStep } from '../cast.ts';
import { anyFilesOf, exportTo, type Files, filesOf, renamed, spoiled, zipBytes } from './export-zip.ts';
import { openStage } from './hostile/stage.ts';

const PIECE = 20_000;
const EMAIL = 'ingrid@example.org';
const BOMB_BYTES = 2 * 1024 * 1024;

let dir: string;
let zip: Buffer;
let files: Files;
let here: Awaited<ReturnType<typeof openEmpty>>;
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'middenry-sent-'));
  const { cast } = await openStage();
  cast.store.sqlite.exec('UPDATE programme SET is_demo = 0');
  cast.store.sqlite.prepare('UPDATE person SET email = ? WHERE id = ?').run(EMAIL, PEOPLE.owner.id);
  const file = join(dir, 'all.zip');
  await exportTo(file, { file: cast.store.sqlite.name, photoDir: photoDirOf(cast.app.middenry.config), now: cast.clock.at });
  await cast.close();
  [zip, files] = [readFileSync(file), await filesOf(file)];
});
afterAll(() => rmSync(dir, { recursive: true, force: true }));
beforeEach(async () => {
  here = await openEmpty({ env: { OWN: 'yes' } });
});
afterEach(() => here.close());

async function ask(method: 'GET' | 'POST' | 'PUT', path: string, body?: object, headers: Record<string, string> = {}) {
  const isBytes = Buffer.isBuffer(body);
  const type = body === undefined ? {} : { 'content-type': isBytes ? 'application/zip' : 'application/json' };
  const answer = await here.app.inject({
    method,
    url: path,
    ...(body === undefined ? {} : { payload: body }),
    headers: { ...type, ...headers },
  });
  const isJson = String(answer.headers['content-type']).includes('json');
  return { status: answer.statusCode, body: isJson ? answer.json() : undefined, bytes: answer.rawPayload, headers: answer.headers };
}

const begin = (bytes: number, code = here.setupWords, id = freshId()) => ask('POST', '/api/setup/exports', { id, code, bytes });
async function send(bytes: Buffer): Promise<string> {
  const { id } = (await begin(bytes.length)).body;
  for (let at = 0; at < bytes.length; at += PIECE)
    expect((await ask('PUT', `/api/setup/exports/${id}?at=${at}`, bytes.subarray(at, at + PIECE))).body.received).toBe(
      Math.min(at + PIECE, bytes.length),
    );
  return `/api/setup/exports/${id}`;
}
const use = () => ({ code: here.setupWords, email: EMAIL, password: PASSWORD });
const people = () => Number(here.store.sqlite.prepare('SELECT count(*) FROM person').pluck().get());
/** What lies beside the store but belongs to it. */
const left = () => readdirSync(here.dir).filter((name) => /returning|\.part/.test(name));

describe('an export sent back', () => {
  test('G1: is looked at, taken, its owner is in, and its export is the same as the one that was sent', async () => {
    const at = await send(zip);
    const found = await ask('POST', `${at}/checked`, {});
    const count = (table: string) => JSON.parse(files.get(`data/${table}.json`)!.toString()).length;
    expect(found.body).toMatchObject({
      programme: 'Two Gardens',
      entries: count('entry'),
      people: count('person'),
      bins: count('bin'),
      photos: 2,
    });
    expect(people()).toBe(0);
    const taken = await ask('POST', `${at}/taken`, use());
    expect([taken.status, taken.body.person.name, taken.body.person.owner]).toEqual([201, 'Ingrid Halloway', true]);
    setUpSecondStep(here, PEOPLE.owner.id);
    const again = await anyFilesOf((await ask('GET', '/api/export.zip', undefined, { cookie: cookieIn(taken) })).bytes);
    const same = [...files.keys()].filter((name) => /^(data|tables|photos)\//.test(name));
    expect([...again.keys()].filter((name) => /^(data|tables|photos)\//.test(name))).toEqual(same);
    for (const name of same) expect([name, again.get(name)!.equals(files.get(name)!)]).toEqual([name, true]);
    const signedIn = await ask('POST', '/api/session', { email: EMAIL, password: PASSWORD });
    expect(['second-step', undefined]).toContain(signedIn.body.code);
    expect([left(), (await ask('GET', '/api/setup')).body.open]).toEqual([[], false]);
    expect((await begin(10)).body.code).toBe('code-spent');
    expect((await ask('POST', `${at}/taken`, use())).body.code).toBe('code-spent');
  });

  test('G11: wants the code from the console, which ten wrong tries end', async () => {
    for (let at = 0; at < 10; at += 1) expect((await begin(zip.length, 'AAAA-AAAA')).body.code).toBe('code-wrong');
    expect((await begin(zip.length)).body.code).toBe('code-spent');
    expect(left()).toEqual([]);
  });

  test('G4: an owner who is not in it, or a wrong code, leaves everything as it was', async () => {
    const at = await send(zip);
    const stranger = await ask('POST', `${at}/taken`, { ...use(), email: 'nobody@example.org' });
    expect([stranger.status, stranger.body.errors[0].pointer, people()]).toEqual([422, '/email', 0]);
    expect((await ask('POST', `${at}/taken`, { ...use(), code: 'AAAA-AAAA' })).body.code).toBe('code-wrong');
    expect(existsSync(photoDirOf(here.config)) ? readdirSync(photoDirOf(here.config)) : []).toEqual([]);
    expect((await ask('POST', `${at}/taken`, use())).status).toBe(201);
  });

  test.each<[what: string, make: () => Promise<Buffer> | Buffer, says: RegExp]>([
    ['a changed table', () => zipBytes(spoiled(files, 'data/entry.json', (json) => json.replace('2026', '2025'))), /by its checksum/],
    [
      'a name that leads out',
      async () => renamed(await zipBytes(files), 'README.md', '/../../a.md'.slice(0, 9)),
      /not sound|no export does/,
    ],
    ['a bomb', () => zipBytes([...files, ['tables/bomb.csv', Buffer.alloc(BOMB_BYTES)]]), /far more/],
    ['half a zip', () => zip.subarray(0, PIECE), /as a zip/],
  ])('G11: %s is refused in words, looked at or taken, and nothing is left', async (_, make, says) => {
    const at = await send(await make());
    for (const answer of [await ask('POST', `${at}/checked`, {}), await ask('POST', `${at}/taken`, use())]) {
      expect([answer.status, answer.body.code]).toEqual([422, 'export-refused']);
      expect(answer.body.detail).toMatch(says);
      expect(answer.body.detail).not.toContain(here.dir);
    }
    expect([people(), left().filter((name) => name.includes('.part'))]).toEqual([0, []]);
  });

  test('G11: the reason is in the language of whoever asks', async () => {
    const at = await send(await zipBytes(spoiled(files, 'data/entry.json', (json) => json.replace('2026', '2025'))));
    const reason = async (language: string) => (await ask('POST', `${at}/checked`, {}, { 'accept-language': language })).body.detail;
    expect(await reason('es')).toMatch(/data\/entry\.json no está como se escribió.*No se ha cambiado nada\.$/);
    expect(await reason('en')).toMatch(/data\/entry\.json is not as it was written.*Nothing was changed\.$/);
    const { id } = (await begin(30)).body;
    const short = await ask('POST', `/api/setup/exports/${id}/checked`, {}, { 'accept-language': 'es' });
    expect(short.body.detail).toBe('Han llegado 0 de 30 bytes: envía el resto.');
  });

  test('G11: a piece twice, one out of turn and one too many are not taken; what is missing is told', async () => {
    const { id } = (await begin(30)).body;
    const put = async (at: number, bytes: number) => (await ask('PUT', `/api/setup/exports/${id}?at=${at}`, Buffer.alloc(bytes, at))).body;
    expect((await put(0, 20)).received).toBe(20);
    expect([(await put(0, 20)).received, (await put(25, 5)).received]).toEqual([20, 20]);
    expect((await put(20, 11)).code).toBe('too-large');
    expect((await ask('POST', `/api/setup/exports/${id}/checked`, {})).body.detail).toContain('20 of 30 bytes');
    expect((await put(20, 10)).received).toBe(30);
    expect((await ask('PUT', `/api/setup/exports/${freshId()}?at=0`, Buffer.alloc(1))).status).toBe(404);
  });

  test('G11: two at once: the second is told that the first still runs', async () => {
    const at = await send(zip);
    const both = await Promise.all([ask('POST', `${at}/taken`, use()), ask('POST', `${at}/taken`, use()), begin(10)]);
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
    expect(people()).toBe(JSON.parse(files.get('data/person.json')!.toString()).length);
  });

  test('G11: an upload that is cut leaves the zip as long as it was, and goes on from there', async () => {
    await here.app.listen({ port: 0, host: '127.0.0.1' });
    const { port } = here.app.server.address() as AddressInfo;
    const { id } = (await begin(zip.length)).body;
    await new Promise<void>((resolve) => {
      const socket = connect(port, '127.0.0.1', () => {
        const head = `PUT /api/setup/exports/${id}?at=0 HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\n`;
        socket.write(`${head}Content-Type: application/zip\r\nContent-Length: ${PIECE}\r\n\r\n`);
        socket.write(zip.subarray(0, PIECE / 2), () => setTimeout(() => socket.destroy(), 100));
      });
      socket.once('close', () => resolve());
    });
    // Until the server has noticed, the piece that was cut is still running.
    const first = () => ask('PUT', `/api/setup/exports/${id}?at=0`, zip.subarray(0, PIECE));
    await expect.poll(async () => (await first()).body.received, { timeout: 5000 }).toBe(PIECE);
    for (let at = PIECE; at < zip.length; at += PIECE) {
      const piece = await ask('PUT', `/api/setup/exports/${id}?at=${at}`, zip.subarray(at, at + PIECE));
      expect(piece.body.received).toBe(Math.min(at + PIECE, zip.length));
    }
    expect((await ask('POST', `/api/setup/exports/${id}/checked`, {})).status).toBe(200);
  });
});
