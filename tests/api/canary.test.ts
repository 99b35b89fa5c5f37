/**
 * Secrets and names of erased people, looked for in every byte that lies on the disk: the store, its log, backups, what deleted rows leave
 * behind in a page. A search through the store's own tables would not see the last of these (criteria E14, C27).
 */
import { readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { Writable } from 'node:stream';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { mailerOf } from '../../apps/api/src/services/mail/mailer.ts';
import { smtpSender } from '../../apps/api/src/services/mail/sender.ts';
import { bytesOf, hotp } from '../../apps/api/src/services/totp.ts';
import { BINS, type Cast, cookieIn, freshId, later, openCast, PASSWORD, PEOPLE, SITES } from '../cast.ts';
import { openSink, type Sink } from './mail-sink.ts';

let cast: Cast;
let sink: Sink;
let log = '';
beforeEach(async () => {
  log = '';
  sink = await openSink();
  const stream = new Writable({
    write(piece, _encoding, done) {
      log += String(piece);
      done();
    },
  });
  const env = { LOG: 'yes', SMTP_URL: sink.url, MAIL_FROM: 'bins@gardens.example', PUBLIC_URL: 'https://bins.example' };
  cast = await openCast({ env, log: stream, secondStep: false });
});
afterEach(async () => {
  await cast.close();
  await sink.close();
});

const filesUnder = (dir: string): string[] =>
  readdirSync(dir, { recursive: true, encoding: 'utf8' })
    .map((name) => join(dir, name))
    .filter((path) => statSync(path).isFile());

/** Whether bytes hold a secret, in any of the ways in which it may be written. */
function holds(bytes: Buffer, secret: string): boolean {
  // Six digits also come about in the middle of a time or a hash.
  if (/^\d{6}$/.test(secret)) return new RegExp(`(?<![0-9A-Za-z.:-])${secret}(?![0-9A-Za-z-])`).test(bytes.toString('latin1'));
  const plain = Buffer.from(secret);
  const spellings = [secret, encodeURIComponent(secret), plain.toString('base64').replace(/=+$/, ''), plain.toString('hex')];
  return spellings.some((text) => bytes.includes(text));
}

/** `name in file` for each secret that stands in a file of the data folder, in the log, or in the name of a file. */
function leaks(secrets: Readonly<Record<string, string>>): string[] {
  const places = filesUnder(cast.dir).map((path) => [path.slice(cast.dir.length + 1), readFileSync(path)] as const);
  const names = places.map(([name]) => name);
  expect(names.filter((name) => /^backups\/own-.*\.db$/.test(name))).not.toEqual([]);
  const searched = [...places, ['the log', Buffer.from(log)], ['the names of files', Buffer.from(names.join('\n'))]] as const;
  return Object.entries(secrets).flatMap(([name, secret]) => {
    expect(secret.length, name).toBeGreaterThan(5);
    return searched.filter(([, bytes]) => holds(bytes, secret)).map(([place]) => `${name} in ${place}`);
  });
}

const make = async (who: Parameters<Cast['call']>[0], method: string, url: string, body?: object) => {
  const answer = await cast.call(who, method, url, body);
  expect(answer.status, `${method} ${url}: ${answer.text}`).toBeLessThan(300);
  return answer;
};
const secretIn = (text: string): string => /[\w-]{43}/.exec(text)![0];

async function mails(): Promise<void> {
  const { mail, publicUrl } = cast.app.middenry.config;
  const { store, clock } = cast;
  await mailerOf({ store, clock, sender: smtpSender(mail!), from: mail!.from, publicUrl }).look();
}

async function plantLinks(): Promise<Record<string, string>> {
  const invite = secretIn((await make('owner', 'POST', '/api/invites', { id: freshId() })).text);
  const used = secretIn((await make('owner', 'POST', '/api/invites', { id: freshId() })).text);
  await make(null, 'POST', '/api/session/invite', { token: used, name: 'Nele Rook' });
  const board = secretIn((await make('owner', 'POST', '/api/links', { id: freshId(), kind: 'board' })).text);
  const season = secretIn((await make('owner', 'POST', '/api/links', { id: freshId(), kind: 'season' })).text);
  const feed = secretIn((await make('volunteer', 'POST', '/api/calendar-links', { id: freshId(), label: 'Phone' })).text);
  await make(null, 'GET', `/calendar/${feed}.ics`);
  await make(null, 'GET', `/season-link/${season}.csv?from=2026-11-01`);
  await make(null, 'POST', '/api/invite-cards', { token: invite });
  await make(null, 'POST', '/api/linked-boards', { token: board });
  return { invite, used, board, season, feed };
}

/** A coordinator who sets a password and a second step, and comes in with it; a volunteer who gives an address. */
async function plantEntrances(): Promise<Record<string, string>> {
  await make('owner', 'PUT', '/api/password', { password: PASSWORD });
  const { secret } = (await make('owner', 'POST', '/api/totp', {})).body;
  const totp = (): string => hotp(bytesOf(secret), Math.floor(cast.clock.at.getTime() / 30_000));
  const { recoveryCodes } = (await make('owner', 'PUT', '/api/totp', { code: totp() })).body;
  later(cast, 2);
  const typedTotp = totp();
  const email = 'ingrid@example.org';
  const session = cookieIn(await make(null, 'POST', '/api/session', { email, password: PASSWORD, code: typedTotp })).split('=')[1]!;
  await make(null, 'POST', '/api/session', { email, password: PASSWORD, code: recoveryCodes[0] });
  const { code: device } = (await make('volunteer', 'POST', '/api/device-codes', {})).body;
  await make('volunteer', 'PUT', '/api/message-setting/address', { address: 'otis@post.example' });
  await mails();
  const mailed = /code is (\d{6})/.exec(sink.mails.at(-1)!.body)![1]!;
  await make('volunteer', 'POST', '/api/message-setting/address/confirm', { code: mailed });
  return {
    password: PASSWORD,
    session,
    recovery: recoveryCodes[0],
    unusedRecovery: recoveryCodes[1],
    device: String(device),
    mailed,
    typedTotp,
  };
}

async function plantReply(): Promise<string> {
  const shift = { siteId: SITES.meadow, title: 'Round', localDate: '2026-11-26', localTime: '10:00', minutes: 60, places: 3 };
  const id = freshId();
  await make('owner', 'POST', '/api/shifts', { id, ...shift });
  await make('volunteer', 'POST', `/api/shifts/${id}/sign-ups`, { id: freshId() });
  sink.mails.length = 0;
  await make('owner', 'DELETE', `/api/shifts/${id}`);
  later(cast, 10);
  await mails();
  expect(sink.mails).not.toEqual([]);
  const token = /reply#([\w-]{43})/.exec(sink.mails[0]!.body.replace(/=\r\n/g, ''))![1]!;
  await make(null, 'POST', '/api/reply-cards', { token });
  await make(null, 'POST', '/api/replies', { token, does: 'stop-mail' });
  return token;
}

describe('every byte on the disk', () => {
  it('E14: no file of the store, its log or a backup holds a secret that went through', async () => {
    const secrets = { ...(await plantEntrances()), ...(await plantLinks()), reply: await plantReply() };
    await cast.app.middenry.keeper!.backUp('asked-for');
    expect(Object.keys(secrets)).toHaveLength(13);
    expect(leaks(secrets)).toEqual([]);
    // What should be found is.
    expect(leaks({ organiser: PEOPLE.owner.name })).toEqual(expect.arrayContaining([expect.stringMatching(/organiser in backups\/own-/)]));
    expect(log).toContain('/api/session/invite');
  });

  it('C27: after an erasure neither the store nor a backup made since holds a byte of the name, the address or the device', async () => {
    const gone = { name: 'Ottoline Varga-Penhallow', address: 'ottoline@post.example', device: 'Ottolines grey phone' };
    await plantEntrances();
    const id = freshId();
    await make('owner', 'POST', '/api/people', { id, name: gone.name, role: 'volunteer', siteIds: [], isAdult: true });
    await make('owner', 'PATCH', `/api/people/${id}`, { email: gone.address });
    const cookie = cast.app.middenry.cookieOf(id);
    const theirs = (method: string, url: string, body: object) => cast.call(null, method, url, body, { cookie });
    expect((await theirs('POST', '/api/calendar-links', { id: freshId(), label: gone.device })).status).toBe(201);
    expect(
      (
        await theirs('POST', '/api/harvests', {
          id: freshId(),
          binId: BINS.tote,
          happenedAt: '2026-11-25T09:00:00Z',
          massKg: 1,
          destination: 'beds',
        })
      ).status,
    ).toBe(201);
    await cast.app.middenry.keeper!.backUp('asked-for');
    expect(leaks(gone).length).toBeGreaterThan(3);
    for (const path of filesUnder(join(cast.dir, 'backups'))) rmSync(path);
    later(cast, 1);
    await make('owner', 'DELETE', `/api/people/${id}`);
    await cast.app.middenry.keeper!.backUp('asked-for');
    expect(leaks(gone)).toEqual([]);
  });
});
