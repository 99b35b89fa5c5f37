/** What is kept of people, for how long, and who may see it. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest';
import { BACKUP_DAYS, listBackups } from '../../apps/api/src/db/keep/backup.ts';
import { RETENTION } from '../../apps/api/src/db/keep/retention.ts';
import { addDays } from '../../apps/api/src/services/local-time.ts';
import { BINS, type Cast, freshId, openCast, PEOPLE, SITES } from '../cast.ts';
import { makeConsent } from './hostile/consent-samples.ts';
import { makeSheetImport } from './hostile/import-samples.ts';
import { makePhoto } from './hostile/photo-samples.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(() => cast.close());

const source = (dir: string): string[] =>
  readdirSync(new URL(`../../${dir}`, import.meta.url), { recursive: true, withFileTypes: true })
    .filter((file) => file.isFile() && /\.(ts|svelte)$/.test(file.name) && !file.name.includes('.test.'))
    .map((file) => readFileSync(join(file.parentPath, file.name), 'utf8'));

test('C24: nothing asks where anybody is, and the browser is told that nothing may', async () => {
  const files = [...source('apps/web/src'), ...source('packages/domain/src')];
  expect(files.length).toBeGreaterThan(300);
  expect(files.filter((text) => /\.geolocation\b|getCurrentPosition|watchPosition/.test(text))).toEqual([]);
  const answers = await Promise.all(['/api/session', '/api/privacy', '/no-such-page'].map((url) => cast.call(null, 'GET', url)));
  for (const { headers } of answers) expect(headers['permissions-policy']).toContain('geolocation=()');
});

test('C24: pupils read of no streak, no score and of nobody who did more', () => {
  const words = source('apps/web/src/lib/messages/en').join('\n').toLowerCase();
  expect(words.length).toBeGreaterThan(30_000);
  expect(words.match(/\b(streaks?|leaderboards?|high scores?|badges?|points earned|did more than)\b/g)).toBeNull();
});

test('C22: whoever looks at how to reach people is noted, and nobody but coordinators can', async () => {
  const seen = () => Number(cast.store.sqlite.prepare("SELECT count(*) FROM audit WHERE action = 'contacts-seen'").pluck().get());
  const before = seen();
  for (const who of ['siteLead', 'volunteer', 'pupil'] as const) expect((await cast.call(who, 'GET', '/api/people')).status).toBe(403);
  expect(seen()).toBe(before);
  expect((await cast.call('coordinator', 'GET', '/api/people')).status).toBe(200);
  expect(seen()).toBe(before + 1);
  const [line] = (await cast.call('owner', 'GET', '/api/audit?limit=1')).body.items;
  expect(line).toMatchObject({ action: 'contacts-seen', by: { id: PEOPLE.coordinator.id } });
});

test('C26: anybody reads what is kept how long, out of the very list that clears away', async () => {
  const { status, body } = await cast.call(null, 'GET', '/api/privacy');
  const days = [...RETENTION.map((one) => [one.key, one.days]), ['backups', BACKUP_DAYS]];
  expect([status, body.kept.map((one: { what: string; days: number }) => [one.what, one.days])]).toEqual([200, days]);
  const limits = { pupils: 90, sessions: 90, invites: 14, audit: 366, backups: 90 };
  expect(Object.fromEntries(days)).toMatchObject(limits);
});

test('C28: the words of the how-to for guardians and schools stand on the buttons', () => {
  const howTo = readFileSync(new URL('../../docs/how-to/pupil-data.md', import.meta.url), 'utf8');
  const words = source('apps/web/src/lib/messages/en').join('\n');
  const buttons = [...howTo.matchAll(/\*\*(.+?)\*\*/g)].map(([, word]) => word!);
  expect(buttons.length).toBeGreaterThan(5);
  expect(buttons.filter((word) => !words.includes(`'${word}'`))).toEqual([]);
  expect(howTo).toContain(`within ${BACKUP_DAYS} days`);
  expect(howTo).toContain(`${RETENTION.find(({ key }) => key === 'pupils')?.days} days after the end of the season`);
});

describe('C26: 400 days in which nobody does anything', () => {
  const put = (sql: string, ...values: unknown[]) => cast.store.sqlite.prepare(sql).run(...values);
  const count = (sql: string) => Number(cast.store.sqlite.prepare(sql).pluck().get());
  const START = '2026-11-25T10:00:00.000Z';
  const dayAfter = (days: number) => new Date(`${addDays(START.slice(0, 10), days)}${START.slice(10)}`);

  /** One of everything that is only kept for a time. */
  async function putAll(): Promise<void> {
    const hash = 'a'.repeat(64);
    for (const who of ['pupil', 'volunteer'] as const) cast.cookie(who);
    await cast.call('owner', 'POST', '/api/invites', { id: freshId(), role: 'volunteer' });
    await cast.call('owner', 'POST', '/api/device-codes', { personId: PEOPLE.volunteer.id });
    await cast.call('volunteer', 'POST', '/api/notes', {
      id: freshId(),
      binId: BINS.tote,
      happenedAt: '2026-11-25T09:00:00Z',
      note: 'Damp',
    });
    put('INSERT INTO sign_in_try (account_hash, failures, last_failure_at) VALUES (?, 1, ?)', hash, START);
    put("INSERT INTO message (id, person_id, kind, made_at) VALUES (?, ?, 'digest', ?)", freshId(), PEOPLE.owner.id, START);
    const photo = freshId();
    makePhoto(cast, photo, BINS.tote);
    put("UPDATE photo SET people = 'some', people_at = ? WHERE id = ?", START, photo);
    makeConsent(cast, freshId());
    put('UPDATE consent SET withdrawn_at = ?', START);
    makeSheetImport(cast, freshId());
    makeSheetImport(cast, freshId());
    const refused = {
      again: 0,
      refused: [{ row: 4, state: 'refused', faults: [{ field: 'person', value: 'Wilf Sallow', reason: 'name' }] }],
    };
    put('UPDATE sheet_import SET done_at = ?, refused = ? WHERE id = (SELECT max(id) FROM sheet_import)', START, JSON.stringify(refused));
    // The autumn in which the pupil came ends five days on.
    await cast.call('owner', 'POST', '/api/seasons', {
      id: freshId(),
      siteId: SITES.meadow,
      name: 'Autumn',
      from: '2026-09-01',
      to: '2026-11-30',
    });
  }

  const left = () => ({
    pupils: count('SELECT count(*) FROM person WHERE is_adult = 0 AND name IS NOT NULL'),
    sessions: count('SELECT count(*) FROM sign_in_session'),
    invites: count('SELECT count(*) FROM invite'),
    codes: count('SELECT count(*) FROM device_code'),
    tries: count('SELECT count(*) FROM sign_in_try'),
    messages: count('SELECT count(*) FROM message'),
    sheetsWaiting: count('SELECT count(*) FROM sheet_import WHERE done_at IS NULL'),
    namesTyped: count("SELECT count(*) FROM sheet_import WHERE refused LIKE '%Wilf Sallow%'"),
    hiddenPhotos: count('SELECT count(*) FROM photo'),
    consents: count('SELECT count(*) FROM consent'),
    oldAudit: count("SELECT count(*) FROM audit WHERE at <= '2026-11-25T10:00:00.000Z'") > 0 ? 'there' : 'gone',
    sentIds: count('SELECT count(*) FROM applied_client_id') > 0 ? 'there' : 'gone',
    oldBackups: listBackups(join(cast.dir, 'backups'), 'own').filter(({ manifest }) => manifest.madeAt <= START).length,
  });
  const adults = () => count('SELECT count(*) FROM person WHERE is_adult = 1 AND name IS NOT NULL');

  it('leave of people what the table says, day by day, and all of what was noted of bins', async () => {
    await putAll();
    const before = { adults: adults(), entries: count('SELECT count(*) FROM entry') };
    const table: Record<number, ReturnType<typeof left>> = {};
    for (const day of [0, 2, 31, 91, 95, 125, 365, 401]) {
      cast.clock.at = dayAfter(day);
      await cast.app.middenry.keeper!.look();
      table[day] = left();
    }
    const full = {
      ...{ pupils: 1, sessions: 5, invites: 1, codes: 1, tries: 1, messages: 1, sheetsWaiting: 1, namesTyped: 1 },
      ...{ hiddenPhotos: 1, consents: 1 },
      ...{ oldAudit: 'there', sentIds: 'there', oldBackups: 1 },
    };
    const twoDays = { ...full, codes: 0 };
    const month = { ...twoDays, invites: 0, tries: 0, sheetsWaiting: 0, hiddenPhotos: 0 };
    // The day after each limit of 30 and of 90 days.
    const quarter = { ...month, sessions: table[91]!.sessions, messages: 0, namesTyped: 0, oldBackups: 0 };
    const year = { ...quarter, pupils: 0, sessions: 0 };
    expect(table).toEqual({
      ...{ 0: full, 2: twoDays, 31: month, 91: quarter, 95: { ...quarter, pupils: 0 }, 125: year, 365: year },
      401: { ...year, oldAudit: 'gone', sentIds: 'gone', consents: 0 },
    });
    expect({ adults: adults(), entries: count('SELECT count(*) FROM entry') }).toEqual(before);
    expect(count("SELECT count(*) FROM audit WHERE action = 'pupil-erased'")).toBe(1);
  });
});
