import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { bytesOf, hotp } from '../../apps/api/src/services/totp.ts';
import { type Answer, type Cast, freshId, openCast, openEmpty, PASSWORD, PEOPLE, SITES } from '../cast.ts';

const cookieIn = (answer: Pick<Answer, 'headers'>) => String(answer.headers['set-cookie']).split(';')[0]!;
const later = (cast: Pick<Cast, 'clock'>, minutes: number) => {
  cast.clock.at = new Date(cast.clock.at.getTime() + minutes * 60_000);
};
const DAY = 24 * 60;

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
    return { id, token: String(made.body.path).split('/').at(-1)! };
  };
  const press = (token: string, body: Record<string, unknown> = { name: 'Hester Vane' }) =>
    cast.call(null, 'POST', '/api/session/invite', { token, ...body });

  it('E5: a hundred looks of a scanner do not use one up; one press does', async () => {
    const { token } = await invite({ siteIds: [SITES.meadow] });
    for (let at = 0; at < 100; at += 1) {
      const looked = await cast.app.inject({ method: at % 2 ? 'HEAD' : 'GET', url: `/api/invite-cards/${token}` });
      expect([looked.statusCode, looked.headers['set-cookie']]).toEqual([200, undefined]);
    }
    const taken = await press(token);
    expect(taken.status).toBe(201);
    expect(await whoIs(cookieIn(taken))).toMatchObject({ name: 'Hester Vane', role: 'volunteer', siteIds: [SITES.meadow] });
    expect([(await press(token)).body.code, (await cast.call(null, 'GET', `/api/invite-cards/${token}`)).body.code]).toEqual([
      'code-spent',
      'code-spent',
    ]);
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
    later(cast, 14 * DAY + 1);
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

  it('E7: ends every session as soon as somebody is disabled, and a lowered role counts with the next request', async () => {
    const cookie = cast.app.middenry.cookieOf(PEOPLE.siteLead.id);
    await cast.call('owner', 'PATCH', `/api/people/${PEOPLE.siteLead.id}`, { role: 'volunteer', siteIds: [] });
    expect((await asDevice(cookie, 'GET', '/api/classes')).status).toBe(403);
    await cast.call('owner', 'PATCH', `/api/people/${PEOPLE.siteLead.id}`, { disabled: true });
    expect(await whoIs(cookie)).toBeNull();
    await cast.call('owner', 'PATCH', `/api/people/${PEOPLE.siteLead.id}`, { disabled: false });
    expect(await whoIs(cookie)).toBeNull();
  });

  it('lets a volunteer stay for thirty days and not longer', async () => {
    const cookie = cast.app.middenry.cookieOf(PEOPLE.volunteer.id);
    later(cast, 30 * DAY - 1);
    expect(await whoIs(cookie)).not.toBeNull();
    later(cast, 2);
    expect(await whoIs(cookie)).toBeNull();
  });
});

describe('six digits', () => {
  const codeFor = async (who: 'volunteer' | 'owner', body: Record<string, unknown> = {}) =>
    (await cast.call(who, 'POST', '/api/device-codes', body)).body.code;
  const use = (code: string) => cast.call(null, 'POST', '/api/session/device', { code, deviceLabel: 'Tablet' });
  const wrongOf = (code: string) => String((Number(code) + 1) % 1_000_000).padStart(6, '0');

  it('E4: bring another device in, once, within ten minutes', async () => {
    const code = await codeFor('volunteer');
    expect(code).toMatch(/^\d{6}$/);
    const entered = await use(`${code.slice(0, 3)} ${code.slice(3)}`);
    expect([entered.status, entered.body.person.id]).toEqual([201, PEOPLE.volunteer.id]);
    expect((await use(code)).body.code).toBe('code-wrong');
    const late = await codeFor('volunteer');
    later(cast, 10);
    expect((await use(late)).body.code).toBe('code-wrong');
  });

  it('E4: are dead after five wrong tries by anybody', async () => {
    const code = await codeFor('volunteer');
    for (let at = 0; at < 5; at += 1) expect((await use(wrongOf(code))).status).toBe(422);
    expect((await use(code)).body.code).toBe('code-wrong');
    expect((await use(await codeFor('volunteer'))).status).toBe(201);
  });

  it('are for oneself, or from a coordinator for somebody, never for a pupil; and a newer one replaces the older', async () => {
    const first = await codeFor('owner', { personId: PEOPLE.volunteer.id });
    const second = await codeFor('owner', { personId: PEOPLE.volunteer.id });
    expect((await use(first)).status).toBe(first === second ? 201 : 422);
    expect((await use(second)).body.person.id).toBe(PEOPLE.volunteer.id);
    expect((await cast.call('owner', 'POST', '/api/device-codes', { personId: PEOPLE.pupil.id })).status).toBe(422);
  });
});

describe('password and second step', () => {
  const email = 'ingrid@example.org';
  const signIn = (body: Record<string, unknown> = {}) => cast.call(null, 'POST', '/api/session', { email, password: PASSWORD, ...body });
  const withPassword = () => cast.call('owner', 'PUT', '/api/password', { password: PASSWORD });
  const codeAt = (secret: string, steps = 0) => hotp(bytesOf(secret), Math.floor(cast.clock.at.getTime() / 30_000) + steps);
  const withSecondStep = async () => {
    await withPassword();
    const { secret } = (await cast.call('owner', 'POST', '/api/totp', {})).body;
    const { recoveryCodes } = (await cast.call('owner', 'PUT', '/api/totp', { code: codeAt(secret) })).body;
    return { secret, recoveryCodes };
  };

  it('E2: is hashed by argon2id with 19 MiB, two passes and one lane, and never shorter than fifteen characters', async () => {
    expect((await cast.call('owner', 'PUT', '/api/password', { password: 'fourteen chars' })).status).toBe(422);
    expect((await withPassword()).status).toBe(204);
    const secret = cast.store.sqlite.prepare('SELECT secret FROM credential WHERE person_id = ?').pluck().get(PEOPLE.owner.id);
    expect(secret).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
  });

  it('is changed only by whoever knows it, and signs every other device out', async () => {
    await withPassword();
    const other = cookieIn(await signIn());
    const change = (current: string) => cast.call('owner', 'PUT', '/api/password', { current, password: `${PASSWORD} again` });
    expect((await change('a wrong old password')).body.code).toBe('wrong-sign-in');
    expect((await change(PASSWORD)).status).toBe(204);
    expect(await whoIs(other)).toBeNull();
    expect((await cast.call('owner', 'GET', '/api/session')).body.person.id).toBe(PEOPLE.owner.id);
  });

  it('E3: asks for a code once it is on, and takes each code once', async () => {
    const { secret } = await withSecondStep();
    expect((await signIn()).body.code).toBe('second-step');
    expect((await signIn({ code: codeAt(secret) })).body.code).toBe('code-wrong');
    later(cast, 1);
    const entered = await signIn({ code: codeAt(secret) });
    expect([entered.status, entered.body.person.secondStepMissing]).toEqual([201, false]);
    expect((await signIn({ code: codeAt(secret) })).body.code).toBe('code-wrong');
  });

  it('E3: lets a recovery code in once, and there are ten', async () => {
    const { recoveryCodes } = await withSecondStep();
    expect(new Set(recoveryCodes).size).toBe(10);
    expect((await signIn({ code: recoveryCodes[3].toLowerCase() })).status).toBe(201);
    expect((await signIn({ code: recoveryCodes[3] })).body.code).toBe('code-wrong');
    expect(JSON.stringify(cast.store.sqlite.prepare('SELECT * FROM credential').all())).not.toContain(recoveryCodes[4]);
  });

  it('does not say whether the password was right to whoever has the wrong one', async () => {
    await withSecondStep();
    expect((await signIn({ password: 'another long password' })).body.code).toBe('wrong-sign-in');
  });

  it('is turned off only with the password', async () => {
    await withSecondStep();
    expect((await cast.call('owner', 'DELETE', '/api/totp', { password: 'another long password' })).status).toBe(401);
    expect((await cast.call('owner', 'DELETE', '/api/totp', { password: PASSWORD })).status).toBe(204);
    expect((await signIn()).status).toBe(201);
  });

  it('E6: makes whoever guesses wait longer each time, for known and unknown accounts alike', async () => {
    await withPassword();
    const tries = async (address: string) => {
      const statuses = [];
      for (let at = 0; at < 5; at += 1) statuses.push((await signIn({ email: address, password: 'not the password' })).status);
      return statuses;
    };
    expect(await tries(email)).toEqual([401, 401, 401, 429, 429]);
    expect(await tries('nobody@example.org')).toEqual([401, 401, 401, 429, 429]);
    const waiting = await signIn();
    expect([waiting.status, waiting.body.retryAfterSeconds, waiting.headers['retry-after']]).toEqual([429, 30, '30']);
    cast.clock.at = new Date(cast.clock.at.getTime() + 30_000);
    expect((await signIn({ password: 'not the password' })).status).toBe(401);
    expect((await signIn()).body.retryAfterSeconds).toBe(60);
    later(cast, 1);
    expect((await signIn()).status).toBe(201);
  });

  it('E6: stops for good after a hundred failures, until the owner is reset', async () => {
    await withPassword();
    for (let at = 0; at < 100; at += 1) {
      expect((await signIn({ password: 'not the password' })).status).toBe(401);
      later(cast, 61);
    }
    later(cast, 400 * DAY);
    expect((await signIn()).status).toBe(429);
  });

  it('E7: begins a new session with each sign-in and ends the one before on that device', async () => {
    await withPassword();
    const first = cookieIn(await signIn());
    const again = await cast.call(null, 'POST', '/api/session', { email, password: PASSWORD }, { cookie: first });
    expect(cookieIn(again)).not.toBe(first);
    expect(await whoIs(first)).toBeNull();
  });
});

describe('owners', () => {
  const change = (who: 'owner' | 'coordinator', id: string, body: unknown) => cast.call(who, 'PATCH', `/api/people/${id}`, body);

  it('are never none', async () => {
    for (const body of [{ owner: false }, { disabled: true }, { role: 'volunteer' }])
      expect((await change('owner', PEOPLE.owner.id, body)).body.code).toBe('last-owner');
    expect((await change('owner', PEOPLE.coordinator.id, { owner: true })).status).toBe(200);
    expect((await change('owner', PEOPLE.owner.id, { owner: false })).status).toBe(200);
  });

  it('are made and unmade by owners alone', async () => {
    expect((await change('coordinator', PEOPLE.coordinator.id, { owner: true })).status).toBe(403);
    expect((await change('coordinator', PEOPLE.owner.id, { disabled: true })).status).toBe(403);
    expect((await change('owner', PEOPLE.volunteer.id, { owner: true })).status).toBe(422);
  });
});

describe('POST /api/setup', () => {
  const beginning = (code: string) => ({
    code,
    programme: { name: 'Orchard End', timeZone: 'Europe/Paris' },
    coordinator: { id: freshId(), name: 'Wanda Reed', email: 'Wanda@example.org', password: PASSWORD },
    site: { id: freshId(), name: 'Orchard' },
    bins: [bin('O1'), bin('O2')],
  });
  const bin = (code: string) => ({
    ...{ id: freshId(), code, name: `Tote ${code}`, kind: 'tote', areaM2: 0.2, depthM: 0.35, zones: 2, startedOn: '2026-11-01' },
    ...{ wormsKg: 0.5, bedWaterKg: 4, bed: [{ materialId: 'cardboard_corrugated', massKg: 2 }] },
  });
  let empty: Awaited<ReturnType<typeof openEmpty>>;
  beforeEach(async () => {
    empty = await openEmpty({ env: { OWN: 'yes' } });
  });
  afterEach(() => empty.close());
  const begin = async (body: unknown) => {
    const answer = await empty.app.inject({ method: 'POST', url: '/api/setup', payload: body as object });
    return { status: answer.statusCode, body: answer.json(), headers: answer.headers };
  };
  const isOpen = async () => (await empty.app.inject('/api/setup')).json().open;

  it('E19: begins a programme with the code, once, and signs its owner in', async () => {
    expect(await isOpen()).toBe(true);
    const begun = await begin(beginning(empty.setupWords.toLowerCase()));
    expect([begun.status, begun.body.person?.owner, begun.body.programme?.isDemo]).toEqual([201, true, false]);
    const cookie = cookieIn(begun);
    const bins = (await empty.app.inject({ url: '/api/bins', headers: { cookie } })).json();
    expect(bins.items.map(({ code }: { code: string }) => code)).toEqual(['O1', 'O2']);
    expect((await empty.app.inject({ url: '/api/sites', headers: { cookie } })).json().items[0].timeZone).toBe('Europe/Paris');
    expect(await isOpen()).toBe(false);
    expect((await begin(beginning(empty.setupWords))).status).toBe(410);
  });

  it('E19: is dead after an hour, and after ten wrong tries', async () => {
    const other = await openEmpty({ env: { OWN: 'yes' } });
    later(other, 60);
    expect((await other.app.inject({ method: 'POST', url: '/api/setup', payload: beginning(other.setupWords) })).statusCode).toBe(410);
    await other.close();
    for (let at = 0; at < 10; at += 1) expect((await begin(beginning('AAAA-AAAA'))).body.code).toBe('code-wrong');
    expect((await begin(beginning(empty.setupWords))).body.code).toBe('code-spent');
  });

  it('makes nothing when any part of it is wrong, says where, and lets the code be used again', async () => {
    const twice = { ...beginning(empty.setupWords), bins: [bin('O1'), { ...bin('O2'), bed: [{ materialId: 'moon_dust', massKg: 1 }] }] };
    const refused = await begin(twice);
    expect([refused.status, refused.body.errors[0].pointer]).toEqual([422, '/bins/1/bed/0/materialId']);
    expect(empty.store.sqlite.prepare('SELECT count(*) FROM person').pluck().get()).toBe(0);
    expect((await begin(beginning(empty.setupWords))).status).toBe(201);
  });
});
