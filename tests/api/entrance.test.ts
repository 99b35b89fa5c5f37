import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Cast, cookieIn, freshId, later, openCast, PASSWORD, PEOPLE, SITES } from '../cast.ts';

let cast: Cast;
beforeEach(async () => {
  cast = await openCast();
});
afterEach(() => cast.close());

const asDevice = (cookie: string, method: string, url: string, body?: unknown) => cast.call(null, method, url, body, { cookie });
const whoIs = async (cookie: string) => (await asDevice(cookie, 'GET', '/api/session')).body.person;

describe('invites', () => {
  const invite = async (body: Record<string, unknown> = {}) => {
    const id = freshId();
    const made = await cast.call('owner', 'POST', '/api/invites', { id, ...body });
    expect(made.status).toBe(201);
    return { id, token: String(made.body.path).split('#').at(-1)! };
  };
  const look = (token: string) => cast.call(null, 'POST', '/api/invite-cards', { token });
  const press = (token: string, body: Record<string, unknown> = { name: 'Hester Vane' }) =>
    cast.call(null, 'POST', '/api/session/invite', { token, ...body });

  it('E5: a hundred looks of a scanner do not use one up; one press does', async () => {
    const { token } = await invite({ siteIds: [SITES.meadow] });
    for (let at = 0; at < 100; at += 1) {
      const looked = await look(token);
      expect([looked.status, looked.headers['set-cookie']]).toEqual([200, undefined]);
    }
    const taken = await press(token);
    expect(taken.status).toBe(201);
    expect(await whoIs(cookieIn(taken))).toMatchObject({ name: 'Hester Vane', role: 'volunteer', siteIds: [SITES.meadow] });
    expect([(await press(token)).body.code, (await look(token)).body.code]).toEqual(['code-spent', 'code-spent']);
  });

  it('is given to one of two who press at once', async () => {
    const { token } = await invite();
    const statuses = (await Promise.all([press(token), press(token)])).map(({ status }) => status);
    expect(statuses.sort()).toEqual([201, 410]);
  });

  it('E4: is dead after fourteen days, after being taken back, and when it never was', async () => {
    const old = await invite();
    const back = await invite();
    await cast.call('owner', 'DELETE', `/api/invites/${back.id}`);
    expect((await press(back.token)).body.code).toBe('code-spent');
    cast.clock.at = new Date('2026-12-09T10:01:00Z');
    expect((await press(old.token)).body.code).toBe('code-spent');
    expect((await press('x'.repeat(43))).body.code).toBe('not-found');
    const list = await cast.call('owner', 'GET', '/api/invites');
    expect(list.status).toBe(200);
    expect(list.body.items.map(({ state }: { state: string }) => state).sort()).toEqual(['revoked', 'run-out']);
    expect(list.text).not.toContain(old.token);
  });

  it('is kept as a hash: 128 bits or more that stand nowhere in the store', async () => {
    const { token } = await invite();
    expect(Buffer.from(token, 'base64url').length * 8).toBeGreaterThanOrEqual(128);
    const dump = JSON.stringify(cast.store.sqlite.prepare('SELECT * FROM invite').all());
    expect(dump).not.toContain(token);
  });

  it('brings in a coordinator only with an e-mail address and a password, and signs them in for hours, not weeks', async () => {
    const { token } = await invite({ role: 'coordinator' });
    expect((await press(token)).body.errors[0].pointer).toBe('/email');
    expect((await press(token, { name: 'Hester Vane', email: 'hester@example.org', password: 'too short' })).status).toBe(422);
    const taken = await press(token, { name: 'Hester Vane', email: 'Hester@example.org', password: PASSWORD });
    expect(taken.body.person).toMatchObject({ role: 'coordinator', owner: false, secondStepMissing: true });
    expect((await cast.call(null, 'POST', '/api/session', { email: 'hester@example.org', password: PASSWORD })).status).toBe(201);
    const cookie = cookieIn(taken);
    later(cast, 31);
    expect(await whoIs(cookie)).toBeNull();
  });

  it('adds a device to somebody who is there, under their own name and role', async () => {
    const { token } = await invite({ personId: PEOPLE.siteLead.id });
    const taken = await press(token, { name: 'Somebody Else' });
    expect(taken.body.person).toMatchObject({ id: PEOPLE.siteLead.id, name: PEOPLE.siteLead.name, role: 'site-lead' });
  });

  it.each([PEOPLE.pupil.id, PEOPLE.coordinator.id])('is not made for a pupil, nor for a coordinator', async (personId) => {
    expect((await cast.call('owner', 'POST', '/api/invites', { id: freshId(), personId })).status).toBe(422);
  });
});

describe('devices', () => {
  it('E7: lists where somebody is signed in, and ends one at once', async () => {
    const first = cast.app.middenry.cookieOf(PEOPLE.volunteer.id);
    const second = cast.app.middenry.cookieOf(PEOPLE.volunteer.id);
    const { body } = await asDevice(first, 'GET', '/api/devices');
    expect(body.items).toHaveLength(2);
    const other = body.items.find(({ here }: { here: boolean }) => !here);
    expect((await asDevice(first, 'DELETE', `/api/devices/${other.id}`)).status).toBe(204);
    expect([await whoIs(second), (await whoIs(first)).id]).toEqual([null, PEOPLE.volunteer.id]);
  });

  it('E7: ends every session as soon as somebody is disabled, and for good', async () => {
    const cookies = [1, 2].map(() => cast.app.middenry.cookieOf(PEOPLE.siteLead.id));
    await cast.call('owner', 'PATCH', `/api/people/${PEOPLE.siteLead.id}`, { disabled: true });
    for (const cookie of cookies) expect(await whoIs(cookie)).toBeNull();
    await cast.call('owner', 'PATCH', `/api/people/${PEOPLE.siteLead.id}`, { disabled: false });
    for (const cookie of cookies) expect(await whoIs(cookie)).toBeNull();
  });

  it.each([
    ['siteLead', { role: 'volunteer', siteIds: [] }],
    ['volunteer', { role: 'site-lead', siteIds: [SITES.meadow] }],
    ['volunteer', { role: 'coordinator' }],
  ] as const)('E7: ends the sessions of a %s whose role changes, so that the new role has a new session', async (who, change) => {
    const cookie = cast.app.middenry.cookieOf(PEOPLE[who].id);
    await cast.call('owner', 'PATCH', `/api/people/${PEOPLE[who].id}`, { name: 'Same Role' });
    expect((await whoIs(cookie)).name).toBe('Same Role');
    expect((await cast.call('owner', 'PATCH', `/api/people/${PEOPLE[who].id}`, change)).status).toBe(200);
    expect(await whoIs(cookie)).toBeNull();
    expect((await asDevice(cookie, 'GET', '/api/bins')).status).toBe(401);
  });

  it('lets a volunteer stay for thirty days and not longer', async () => {
    const cookie = cast.app.middenry.cookieOf(PEOPLE.volunteer.id);
    cast.clock.at = new Date('2026-12-25T09:59:00Z');
    expect(await whoIs(cookie)).not.toBeNull();
    later(cast, 2);
    expect(await whoIs(cookie)).toBeNull();
  });
});

describe('six digits', () => {
  const codeFor = async (who: 'volunteer' | 'owner', body: Record<string, unknown> = {}) =>
    (await cast.call(who, 'POST', '/api/device-codes', body)).body.code;
  const use = (code: string) => cast.call(null, 'POST', '/api/session/device', { code, deviceLabel: 'Tablet' });
  /** The same request with other digits. */
  const wrongOf = (code: string) => {
    const digits = code.slice(4).replaceAll(' ', '');
    return `${code.slice(0, 4)} ${String((Number(digits) + 1) % 1_000_000).padStart(6, '0')}`;
  };

  it('E4: bring another device in, once, within ten minutes', async () => {
    const code = await codeFor('volunteer');
    expect(code).toMatch(/^[2-9A-HJKMNP-Z]{4} \d{3} \d{3}$/);
    const entered = await use(code.toLowerCase().replaceAll(' ', '-'));
    expect([entered.status, entered.body.person.id]).toEqual([201, PEOPLE.volunteer.id]);
    expect((await use(code)).body.code).toBe('code-wrong');
    const late = await codeFor('volunteer');
    later(cast, 10);
    expect((await use(late)).body.code).toBe('code-wrong');
  });

  it('E4: are dead after five wrong tries at their own request, and a new one opens', async () => {
    const code = await codeFor('volunteer');
    for (let at = 0; at < 5; at += 1) expect((await use(wrongOf(code))).status).toBe(422);
    expect((await use(code)).body.code).toBe('code-wrong');
    expect((await use(await codeFor('volunteer'))).status).toBe(201);
  });

  it("E4: are bound to their request: whoever tries without knowing it, or at another's, kills none", async () => {
    const code = await codeFor('volunteer');
    const other = await codeFor('owner', { personId: PEOPLE.otherVolunteer.id });
    const digits = code.slice(4);
    for (let at = 0; at < 20; at += 1) expect((await use(`ZZZ${'23456789'[at % 8]}${digits}`)).status).toBe(422);
    for (let at = 0; at < 5; at += 1) expect((await use(wrongOf(other))).status).toBe(422);
    expect((await use(`${other.slice(0, 4)}${digits}`)).status).toBe(422);
    expect((await use(other)).status).toBe(422);
    expect((await use(code)).body.person.id).toBe(PEOPLE.volunteer.id);
  });

  it('E4: are kept as a hash', async () => {
    const digits = (await codeFor('volunteer')).slice(4).replaceAll(' ', '');
    expect(JSON.stringify(cast.store.sqlite.prepare('SELECT code_hash FROM device_code').all())).not.toContain(digits);
  });

  it('are for oneself, or from a coordinator for somebody, never for a pupil; and a newer one replaces the older', async () => {
    const first = await codeFor('owner', { personId: PEOPLE.volunteer.id });
    const second = await codeFor('owner', { personId: PEOPLE.volunteer.id });
    expect((await use(first)).status).toBe(first === second ? 201 : 422);
    expect((await use(second)).body.person.id).toBe(PEOPLE.volunteer.id);
    expect((await cast.call('owner', 'POST', '/api/device-codes', { personId: PEOPLE.pupil.id })).status).toBe(422);
  });
});
