import { Writable } from 'node:stream';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Cast, cookieIn, freshId, openCast, openEmpty, PASSWORD, PEOPLE } from '../cast.ts';

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

describe('the log', () => {
  it('E14: holds none of six secrets that went through', async () => {
    const email = 'otis@example.org';
    await cast.call('owner', 'PATCH', `/api/people/${PEOPLE.volunteer.id}`, { email });
    await cast.call('volunteer', 'PUT', '/api/password', { password: PASSWORD });
    const signedIn = await cast.call(null, 'POST', '/api/session', { email, password: PASSWORD });
    expect(signedIn.status).toBe(201);
    const session = cookieIn(signedIn).split('=')[1]!;
    const invite = (await cast.call('owner', 'POST', '/api/invites', { id: freshId() })).body.path.split('/').at(-1);
    await cast.call(null, 'GET', `/api/invite-cards/${invite}`);
    const link = (await cast.call('owner', 'POST', '/api/links', { id: freshId(), kind: 'board' })).body.path.split('/').at(-1);
    await cast.call(null, 'GET', `/api/linked-boards/${link}`);
    const typed = (await cast.call('volunteer', 'POST', '/api/device-codes', {})).body.code;
    expect((await cast.call(null, 'POST', '/api/session/device', { code: typed })).status).toBe(201);
    const code = typed.slice(4).replaceAll(' ', '');
    const classId = freshId();
    const site = (await cast.call('owner', 'GET', '/api/sites')).body.items[0].id;
    await cast.call('owner', 'POST', '/api/classes', { id: classId, siteId: site, name: 'Year 5', ageBand: '9-12' });
    await cast.call('owner', 'POST', `/api/classes/${classId}/pupils`, { id: freshId(), name: 'Zebedee Q.' });
    await cast.call(null, 'POST', '/api/session', { email, password: `${PASSWORD} but wrong` });

    expect(lines().length).toBeGreaterThan(20);
    const found = Object.entries({ PASSWORD, session, invite, link, code, pupil: 'Zebedee' }).filter(([, secret]) => log.includes(secret));
    expect(found).toEqual([]);
    expect(lines().find(({ route }) => route === '/api/invite-cards/:token')).toMatchObject({ method: 'GET', status: 200 });
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
