import { ROUTES, type RouteSpec } from '@middenry/contract';
import { hash } from '@node-rs/argon2';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { bytesOf, hotp } from '../../apps/api/src/services/totp.ts';
import { type Cast, cookieIn, later, openCast, PASSWORD, PEOPLE, setUpSecondStep } from '../cast.ts';

let cast: Cast;
beforeEach(async () => {
  cast = await openCast({ secondStep: false });
});
afterEach(() => cast.close());

const whoIs = async (cookie: string) => (await cast.call(null, 'GET', '/api/session', undefined, { cookie })).body.person;

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

  it.each([
    ['a word of the lists, twice', 'passwordpassword'],
    ['keys side by side', 'qwertyuiopasdfgh'],
    ['one letter', 'aaaaaaaaaaaaaaa'],
    ['figures in a row', '123456789012345'],
    ['its owner twice', 'IngridHallowayIngridHalloway'],
    ['this program', 'middenrymiddenry1'],
  ])('E2: is not %s', async (_what, password) => {
    const answer = await cast.call('owner', 'PUT', '/api/password', { password });
    expect([answer.status, answer.body.code]).toEqual([422, 'password-guessable']);
  });

  it('E2: is any sixty-four characters that nobody would try, spaces and other alphabets too, exactly as they were typed', async () => {
    const password = 'Лопата  és заступ, tres cubos azules & 7 Würmer in der nassen Er';
    expect(password).toHaveLength(64);
    expect((await cast.call('owner', 'PUT', '/api/password', { password })).status).toBe(204);
    expect((await signIn({ password: password.toLowerCase() })).status).toBe(401);
    expect((await signIn({ password: password.slice(0, -1) })).status).toBe(401);
    expect((await signIn({ password })).status).toBe(201);
  });

  it('E2: is hashed anew at the next sign-in when it was hashed more cheaply than today, and opens as before', async () => {
    await withPassword();
    const cheap = await hash(PASSWORD, { algorithm: 2, memoryCost: 8192, timeCost: 1, parallelism: 1 });
    cast.store.sqlite.prepare("UPDATE credential SET secret = ? WHERE kind = 'password'").run(cheap);
    const secret = () => cast.store.sqlite.prepare("SELECT secret FROM credential WHERE kind = 'password'").pluck().get();
    expect((await signIn({ password: 'not the password' })).status).toBe(401);
    expect(secret()).toBe(cheap);
    expect((await signIn()).status).toBe(201);
    const renewed = secret();
    expect(renewed).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
    expect((await signIn()).status).toBe(201);
    expect(secret()).toBe(renewed);
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
    cast.clock.at = new Date('2027-12-25T10:00:00Z');
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

describe('E3: a coordinator without a second step', () => {
  const routes: readonly RouteSpec[] = ROUTES;
  const walk = async () => {
    const told: string[] = [];
    for (const { method, path, name } of routes.filter(({ name }) => name !== 'readEvents' && name !== 'signOut')) {
      // A photo's body is a picture; any other kind is refused before anybody is asked who they are.
      const kind: Record<string, string> = name === 'putPhoto' ? { 'content-type': 'image/jpeg' } : {};
      const { body } = await cast.call(
        'owner',
        method,
        path.replace(/:(\w+)/g, PEOPLE.volunteer.id),
        method === 'GET' ? undefined : {},
        kind,
      );
      if (body?.code === 'second-step-first') told.push(name);
    }
    return told;
  };

  it('may set it up, sign out, see to own devices and password, and do nothing else that asks for a sign-in', async () => {
    const open = ['listDevices', 'endDevice', 'changePassword', 'startTotp', 'confirmTotp', 'signOut', 'readEvents'];
    const asked = routes.filter(({ access, name }) => access.anonymous === 'none' && !open.includes(name)).map(({ name }) => name);
    expect((await walk()).sort()).toEqual(asked.sort());
    expect(asked.length).toBeGreaterThan(50);
    expect((await cast.call('owner', 'GET', '/api/events')).body.code).toBe('second-step-first');
  });

  it('may do everything once it is on', async () => {
    setUpSecondStep(cast, PEOPLE.owner.id);
    expect(await walk()).toEqual([]);
  });

  it('is let be in the demonstration, where nobody is real', async () => {
    const demo = await openCast({ isDemo: true, secondStep: false });
    expect((await demo.call('owner', 'GET', '/api/board')).status).toBe(200);
    await demo.close();
  });
});

describe('owners', () => {
  beforeEach(() => {
    for (const who of ['owner', 'coordinator'] as const) setUpSecondStep(cast, PEOPLE[who].id);
  });
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
