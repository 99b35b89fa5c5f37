import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Cast, freshId, openCast, PEOPLE } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(() => cast.close());

const site = (id: string, name: string) => ({ id, name, timeZone: 'Europe/London', note: '' });
const count = (table: 'site' | 'person' | 'applied_client_id') =>
  cast.store.sqlite
    .prepare(
      {
        site: 'SELECT count(*) FROM site',
        person: 'SELECT count(*) FROM person',
        applied_client_id: 'SELECT count(*) FROM applied_client_id',
      }[table],
    )
    .pluck()
    .get();

describe('the same client id again', () => {
  it('B13: gives the same thing with 200, whatever the order of its fields', async () => {
    const id = freshId();
    const first = await cast.call('owner', 'POST', '/api/sites', site(id, 'Orchard'));
    const before = count('site');
    const again = await cast.call('owner', 'POST', '/api/sites', { note: '', timeZone: 'Europe/London', name: 'Orchard', id });
    expect([first.status, again.status]).toEqual([201, 200]);
    expect(again.body).toEqual(first.body);
    expect(count('site')).toBe(before);
  });

  it('B13: with other content is refused and changes nothing', async () => {
    const id = freshId();
    await cast.call('owner', 'POST', '/api/sites', site(id, 'Allotment'));
    const other = await cast.call('owner', 'POST', '/api/sites', site(id, 'Allotments'));
    expect([other.status, other.body.code]).toEqual([422, 'same-id-other-content']);
    expect((await cast.call('owner', 'GET', '/api/sites')).body.items.map(({ name }: { name: string }) => name)).not.toContain(
      'Allotments',
    );
  });

  it('looks as if it were not there when it is somebody else’s, or another kind of thing', async () => {
    const id = freshId();
    await cast.call('owner', 'POST', '/api/sites', site(id, 'Hedge'));
    expect((await cast.call('coordinator', 'POST', '/api/sites', site(id, 'Hedge'))).status).toBe(404);
    expect((await cast.call('owner', 'POST', '/api/people', { id, name: 'Nell Harrow', role: 'volunteer' })).status).toBe(404);
  });

  it('is refused in words when the thing came into the store some other way', async () => {
    const { status, body } = await cast.call('owner', 'POST', '/api/people', {
      id: PEOPLE.owner.id,
      name: 'Nell Harrow',
      role: 'volunteer',
    });
    expect([status, body.code]).toEqual([422, 'same-id-other-content']);
  });

  it('is free again when the first try was refused', async () => {
    const id = freshId();
    const refused = await cast.call('owner', 'POST', '/api/sites', site(id, 'Long Meadow'));
    expect(refused.body.code).toBe('name-taken');
    expect((await cast.call('owner', 'POST', '/api/sites', site(id, 'Longer Meadow'))).status).toBe(201);
  });

  it('sent many times at once is one thing', async () => {
    const id = freshId();
    const before = count('applied_client_id') as number;
    const answers = await Promise.all(Array.from({ length: 20 }, () => cast.call('owner', 'POST', '/api/sites', site(id, 'Rush'))));
    expect(answers.map(({ status }) => status).sort()).toEqual([...Array(19).fill(200), 201]);
    expect(count('applied_client_id')).toBe(before + 1);
  });
});

describe('GET /readyz', () => {
  it('F31: says ready, keeps it for five seconds, then says what is wrong without a path or a version', async () => {
    expect((await cast.call(null, 'GET', '/readyz')).body).toEqual({ ok: true });
    cast.store.sqlite.exec('ALTER TABLE programme RENAME TO programme_gone');
    expect((await cast.call(null, 'GET', '/readyz')).status).toBe(200);
    cast.clock.at = new Date(cast.clock.at.getTime() + 5000);
    const broken = await cast.call(null, 'GET', '/readyz');
    cast.store.sqlite.exec('ALTER TABLE programme_gone RENAME TO programme');
    expect([broken.status, broken.body.help]).toEqual([503, { reason: 'store' }]);
    expect(broken.text).not.toMatch(/programme_gone|\/|\d+\.\d+\.\d+/);
    expect((await cast.call(null, 'GET', '/livez')).body).toEqual({ ok: true });
    const schema = cast.store.sqlite.pragma('user_version', { simple: true });
    cast.store.sqlite.pragma('user_version = 9999');
    cast.clock.at = new Date(cast.clock.at.getTime() + 5000);
    const newer = await cast.call(null, 'GET', '/readyz');
    cast.store.sqlite.pragma(`user_version = ${schema}`);
    expect([newer.status, newer.body.help]).toEqual([503, { reason: 'schema' }]);
  });
});
