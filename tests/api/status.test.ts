/** Whether whatever runs by itself still does, told to coordinators (criteria F31). */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Status } from '@middenry/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { endMail, insertMail } from '../../apps/api/src/db/repositories/mail.ts';
import { write } from '../../apps/api/src/db/store.ts';
import { BINS, type Cast, freshId, later, openCast, PEOPLE, type PersonKey, uuid } from '../cast.ts';

const HOUR_MINUTES = 60;
const DAY_HOURS = 24;
let cast: Cast;
let isTight = false;
beforeAll(async () => {
  cast = await openCast({
    env: { SMTP_URL: 'smtp://127.0.0.1:1', MAIL_FROM: 'bins@gardens.example' },
    room: () => ({ isTight: () => isTight, giveBack: () => undefined }),
  });
});
afterAll(() => cast.close());

/** Days go by in here, so everybody comes in anew each time. */
const call = (who: PersonKey, method: string, url: string, body?: unknown) =>
  cast.call(null, method, url, body, { cookie: cast.app.middenry.cookieOf(PEOPLE[who].id) });
const status = async (): Promise<Status> => (await call('coordinator', 'GET', '/api/status')).body;
const look = () => cast.app.middenry.keeper!.look();
const laterHours = (hours: number) => later(cast, hours * HOUR_MINUTES);
const noteBy = (who: PersonKey, aheadMinutes: number) => {
  const deviceAt = new Date(cast.clock.at.getTime() + aheadMinutes * 60_000).toISOString();
  const body = { id: freshId(), binId: BINS.tote, happenedAt: deviceAt, note: 'Seen' };
  return call(who, 'POST', '/api/entries/batch', { personId: PEOPLE[who].id, deviceAt, entries: [{ kind: 'note', body }] });
};

describe('GET /api/status', () => {
  it('F31: before the first look nothing is called well that nobody has looked at; after it everything is', async () => {
    const before = await status();
    expect([before.backup, before.drill, before.soundness].map(({ state, lastAt }) => [state, lastAt])).toEqual(
      Array(3).fill(['look', null]),
    );
    await look();
    const after = await status();
    const at = cast.clock.at.toISOString();
    expect(after).toMatchObject({
      now: at,
      backup: { state: 'well', lastAt: at, fault: null },
      drill: { state: 'well', lastAt: at, words: expect.stringContaining('all five totals equal') },
      soundness: { state: 'well', lastAt: at, damage: null },
      mail: { state: 'well', configured: true, waiting: 0 },
      clock: { state: 'well', possible: true, phones: 0, behindSeconds: null },
    });
    expect(after.disk.storeBytes).toBeGreaterThan(0);
  });

  it('F31: backups that no longer come are told after three hours, but only when there is something to copy', async () => {
    laterHours(4);
    expect((await status()).backup.state).toBe('well');
    await noteBy('volunteer', 0);
    // After a quiet night the newest is old, and of what is missing in it nothing is.
    expect((await status()).backup.state).toBe('well');
    laterHours(2);
    await noteBy('volunteer', 0);
    expect((await status()).backup.state).toBe('well');
    laterHours(1);
    expect((await status()).backup.state).toBe('act');
    await look();
    expect((await status()).backup.state).toBe('well');
    laterHours(1);
    await noteBy('volunteer', 0);
    const dir = join(cast.dir, 'backups');
    rmSync(dir, { recursive: true });
    writeFileSync(dir, 'in the way');
    expect((await call('coordinator', 'POST', '/api/keep/backups', {})).status).toBe(503);
    rmSync(dir);
    mkdirSync(dir);
    expect((await status()).backup).toMatchObject({ state: 'act', fault: expect.stringMatching(/EEXIST|ENOTDIR/) });
    await look();
    expect((await status()).backup).toMatchObject({ state: 'well', fault: null });
  });

  it('F9: a drill that failed, or one of more than 35 days ago, is told', async () => {
    laterHours(36 * DAY_HOURS);
    expect((await status()).drill.state).toBe('look');
    writeFileSync(
      join(cast.dir, 'backups', 'drill-own.json'),
      JSON.stringify({ at: cast.clock.at.toISOString(), ok: false, words: 'It would not open.' }),
    );
    expect((await status()).drill).toMatchObject({ state: 'act', words: 'It would not open.' });
  });

  it('F31: mail that waits for more than an hour, and mail that failed', async () => {
    const made = (id: string) => {
      const at = cast.clock.at.toISOString();
      const goodUntil = new Date(cast.clock.at.getTime() + 7_200_000).toISOString();
      const row = {
        id,
        kind: 'test',
        personId: PEOPLE.volunteer.id,
        messageId: null,
        address: 'otis@post.example',
        secret: null,
      } as const;
      write(cast.store, () => insertMail(cast.store, { ...row, urgent: 0, madeAt: at, nextTryAt: at, goodUntil }));
      return at;
    };
    const since = made(uuid(801));
    expect((await status()).mail).toMatchObject({ state: 'well', waiting: 1, waitingSince: since });
    later(cast, 61);
    expect((await status()).mail.state).toBe('act');
    const end = { state: 'failed', at: cast.clock.at.toISOString(), error: '550 no such box' } as const;
    write(cast.store, () => endMail(cast.store, uuid(801), end));
    expect((await status()).mail).toMatchObject({ state: 'look', waiting: 0, waitingSince: null, failed: 1, lastError: '550 no such box' });
  });

  it('F31: the clock is doubted when most of three phones agree against it, and not for one wrong phone', async () => {
    laterHours(2 * DAY_HOURS);
    await noteBy('volunteer', 40);
    await noteBy('otherVolunteer', 0);
    expect((await status()).clock).toMatchObject({ state: 'well', phones: 2, behindSeconds: null });
    await noteBy('siteLead', 0);
    expect((await status()).clock).toMatchObject({ state: 'well', phones: 3, behindSeconds: 0 });
    later(cast, 1);
    await noteBy('siteLead', 41);
    expect((await status()).clock).toMatchObject({ state: 'act', behindSeconds: 2400 });
    laterHours(DAY_HOURS + 1);
    expect((await status()).clock).toMatchObject({ state: 'well', phones: 0 });
  });

  it('F14, F31: a clock from before the program was written is told to be wrong', async () => {
    const right = cast.clock.at;
    cast.clock.at = new Date('1970-01-02T00:00:00Z');
    const { clock } = await status();
    cast.clock.at = right;
    expect(clock).toMatchObject({ state: 'act', possible: false });
  });

  it('F12: a full disk comes first, and a phone that was not here for two weeks is named', async () => {
    isTight = true;
    expect((await status()).disk.state).toBe('act');
    isTight = false;
    expect((await status()).disk.state).not.toBe('act');
    const code = await call('coordinator', 'POST', '/api/device-codes', { personId: PEOPLE.otherVolunteer.id });
    await cast.call(null, 'POST', '/api/session/device', { code: code.body.code, deviceLabel: 'Old phone' });
    cast.store.sqlite.prepare("UPDATE sign_in_session SET ended_at = created_at WHERE label = ''").run();
    laterHours(13 * DAY_HOURS);
    expect((await status()).phones.quiet).toBe(0);
    laterHours(2 * DAY_HOURS);
    const { quiet, longest } = (await status()).phones;
    expect([quiet, longest[0]]).toEqual([1, expect.objectContaining({ name: PEOPLE.otherVolunteer.name, label: 'Old phone' })]);
  });
});
