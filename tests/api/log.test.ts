import { readdirSync } from 'node:fs';
import { Writable } from 'node:stream';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { quotedName } from '../../apps/api/src/db/quoted-name.ts';
import { type Cast, cookieIn, freshId, openCast, openEmpty, PASSWORD, PEOPLE, type PersonKey, SITES } from '../cast.ts';

let cast: Cast;
let log = '';
beforeAll(async () => {
  const stream = new Writable({
    write(piece, _encoding, done) {
      log += String(piece);
      done();
    },
  });
  cast = await openCast({ env: { LOG: 'yes' }, log: stream });
});
afterAll(() => cast.close());

const lines = (): Record<string, unknown>[] =>
  log
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>);

/** Lets a password, a code, a session, three kinds of link and a pupil's name through, the way people do. */
async function plant(email: string) {
  const make = async (who: PersonKey, url: string, body: object) => (await cast.call(who, 'POST', url, body)).body;
  const tokenIn = ({ path }: { path: string }) =>
    path
      .split(/[/#]/)
      .at(-1)!
      .replace(/\.ics$/, '');
  await cast.call('owner', 'PATCH', `/api/people/${PEOPLE.volunteer.id}`, { email });
  await cast.call('volunteer', 'PUT', '/api/password', { password: PASSWORD });
  const signedIn = await cast.call(null, 'POST', '/api/session', { email, password: PASSWORD });
  expect(signedIn.status).toBe(201);
  const invite = tokenIn(await make('owner', '/api/invites', { id: freshId() }));
  const link = tokenIn(await make('owner', '/api/links', { id: freshId(), kind: 'board' }));
  const feed = tokenIn(await make('volunteer', '/api/calendar-links', { id: freshId(), label: 'Phone' }));
  expect((await cast.call(null, 'POST', '/api/invite-cards', { token: invite })).status).toBe(200);
  expect((await cast.call(null, 'POST', '/api/linked-boards', { token: link })).status).toBe(200);
  expect((await cast.call(null, 'GET', `/calendar/${feed}.ics`)).status).toBe(200);
  // What a page loaded before the secret stood after the # would ask.
  for (const old of [`/api/invite-cards/${invite}`, `/api/linked-boards/${link}`])
    expect((await cast.call(null, 'GET', old)).body.code).toBe('update-first');
  const { code: typed } = await make('volunteer', '/api/device-codes', {});
  const classId = freshId();
  await make('owner', '/api/classes', { id: classId, siteId: SITES.meadow, name: 'Year 5', ageBand: '9-12' });
  const pupil = 'Zebedee Q.';
  const { classCode, pictures } = await make('owner', `/api/classes/${classId}/pupils`, { id: freshId(), name: pupil });
  return {
    session: cookieIn(signedIn).split('=')[1]!,
    invite,
    link,
    feed,
    typed: String(typed),
    pupil,
    card: { classCode: String(classCode), pictures },
  };
}

describe('the log', () => {
  it('E14: holds none of seven secrets that went through, well or into an error, and no answer or file name does', async () => {
    const email = 'otis@example.org';
    const secrets = await plant(email);
    const wrong = `${PASSWORD} but wrong`;
    // Each breaks where its secret is looked for.
    const asked = [
      ['credential', 'POST', '/api/session', { email, password: PASSWORD }],
      ['sign_in_session', 'POST', '/api/session', { email, password: PASSWORD }],
      ['device_code', 'POST', '/api/session/device', { code: secrets.typed }],
      ['invite', 'POST', '/api/session/invite', { token: secrets.invite, name: secrets.pupil }],
      ['invite', 'POST', `/api/invite-cards?session=${secrets.session}`, { token: secrets.invite }],
      ['link', 'POST', '/api/linked-boards', { token: secrets.link }],
      ['person', 'GET', `/calendar/${secrets.feed}.ics`],
      ['class', 'POST', '/api/session/pupil', secrets.card],
    ] as const;
    const refusals: string[] = [];
    for (const [table, method, url, body] of asked) {
      cast.store.sqlite.exec(`ALTER TABLE ${quotedName(table)} RENAME TO gone`);
      const { status, text } = await cast.call(null, method, url, body);
      cast.store.sqlite.exec(`ALTER TABLE gone RENAME TO ${quotedName(table)}`);
      expect([table, status]).toEqual([table, 500]);
      refusals.push(text);
    }
    refusals.push((await cast.call(null, 'POST', '/api/session', { email, password: wrong })).text);
    await cast.app.middenry.keeper!.backUp('asked-for');
    const files = readdirSync(cast.dir, { recursive: true }).join('\n');
    expect(lines().filter(({ err }) => err !== undefined)).toHaveLength(asked.length);
    expect(files).toContain('backups/own-');
    const { typed, card: _card, ...rest } = secrets;
    const canaries = { ...rest, password: PASSWORD, wrong, code: typed.slice(4).replaceAll(' ', ''), typed };
    const searched = [log, refusals.join('\n'), files];
    expect(Object.entries(canaries).filter(([, secret]) => searched.some((text) => text.includes(secret)))).toEqual([]);
    expect(lines().find(({ route }) => route === '/api/invite-cards')).toMatchObject({ method: 'POST', status: 200 });
  });

  it('E16: is found by the ten characters that a person is shown when something breaks, who is told nothing else', async () => {
    cast.store.sqlite.exec('ALTER TABLE container RENAME TO container_gone');
    const broken = await cast.call('volunteer', 'GET', '/api/containers');
    cast.store.sqlite.exec('ALTER TABLE container_gone RENAME TO container');
    expect([broken.status, broken.body.code]).toEqual([500, 'server-fault']);
    expect(broken.body.requestId).toMatch(/^[2-9a-hjkmnp-z]{10}$/);
    expect(broken.text).not.toMatch(/container_gone|no such table|SQLITE|\.ts|node_modules/);
    const told = lines().filter(({ incident, err }) => incident === broken.body.requestId && err !== undefined);
    expect(told).toHaveLength(1);
    expect(JSON.stringify(told[0])).toContain('no such table');
  });
});

describe('behind a proxy', () => {
  it('E15: believes X-Forwarded-For only from the proxy that is named', async () => {
    const seenFrom = async (env: Record<string, string>, remoteAddress: string) => {
      const behind = await openEmpty({ env });
      let ip = '';
      behind.app.addHook('onRequest', async (request) => {
        ip = request.ip;
      });
      await behind.app.inject({ url: '/livez', remoteAddress, headers: { 'x-forwarded-for': '203.0.113.9' } });
      await behind.close();
      return ip;
    };
    const named = { PUBLIC_URL: 'https://bins.example.org', TRUSTED_PROXY: '10.0.0.2' };
    expect(await seenFrom(named, '10.0.0.2')).toBe('203.0.113.9');
    expect(await seenFrom(named, '10.0.0.3')).toBe('10.0.0.3');
    expect(await seenFrom({}, '10.0.0.2')).toBe('10.0.0.2');
  });

  it('E7: uses a cookie that only https and this host can carry, and says so for a year', async () => {
    const behind = await openCast({ env: { PUBLIC_URL: 'https://bins.example.org', PUBLIC_DEMO: 'yes' }, isDemo: true });
    const answer = await behind.app.inject({
      method: 'POST',
      url: '/api/session/demo',
      payload: { as: 'volunteer' },
      headers: { origin: 'https://bins.example.org', host: 'bins.example.org' },
    });
    expect(answer.statusCode).toBe(201);
    expect(answer.headers['set-cookie']).toMatch(/^__Host-middenry=[\w-]{43}; Path=\/; Expires=[^;]+; HttpOnly; Secure; SameSite=Lax$/);
    expect(answer.headers['strict-transport-security']).toBe('max-age=31536000; includeSubDomains');
    await behind.close();
  });
});
