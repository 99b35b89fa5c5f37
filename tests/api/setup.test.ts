import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { cookieIn, freshId, later, openEmpty, PASSWORD, setUpSecondStep } from '../cast.ts';

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
    setUpSecondStep(empty, begun.body.person.id);
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
