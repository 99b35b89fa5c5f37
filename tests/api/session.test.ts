import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Cast, freshId, openCast, PASSWORD } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(() => cast.close());

describe('GET /api/session', () => {
  it('tells nobody apart from the programme', async () => {
    const { status, body } = await cast.call(null, 'GET', '/api/session');
    expect(status).toBe(200);
    expect(body.person).toBeNull();
    expect(body.programme.name).toBe('Two Gardens');
    expect(body.today).toBe('2026-11-25');
  });

  it('tells who is signed in', async () => {
    const { body } = await cast.call('siteLead', 'GET', '/api/session');
    expect(body.person).toMatchObject({ name: 'Priya Ashlund', role: 'site-lead', owner: false });
    expect(body.person.siteIds).toHaveLength(1);
  });
});

describe('POST /api/session', () => {
  it('signs a coordinator in with a password and out again', async () => {
    const id = freshId();
    await cast.call('owner', 'POST', '/api/people', {
      id,
      name: 'Bram Okafor',
      role: 'coordinator',
      email: 'Bram@Example.org',
      password: PASSWORD,
    });
    const entered = await cast.call(null, 'POST', '/api/session', { email: 'bram@example.org', password: PASSWORD });
    expect(entered.status).toBe(201);
    expect(entered.body.person.id).toBe(id);
    const setCookie = String(entered.headers['set-cookie']);
    expect(setCookie).toMatch(/^middenry=[\w-]{43}; /);
    expect(setCookie).toContain('HttpOnly');
    expect(setCookie).toContain('SameSite=Lax');
    const cookie = setCookie.split(';')[0]!;
    expect((await cast.call(null, 'GET', '/api/session', undefined, { cookie })).body.person.id).toBe(id);
    expect((await cast.call(null, 'DELETE', '/api/session', undefined, { cookie })).status).toBe(204);
    expect((await cast.call(null, 'GET', '/api/session', undefined, { cookie })).body.person).toBeNull();
  });
});
