import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createConnection } from 'node:net';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest';
import { photoDirOf, sweep } from '../../apps/api/src/photos/shelf.ts';
import { type Answer, BINS, type Cast, freshId, openCast, PEOPLE, type PersonKey, SITES } from '../cast.ts';
import { comment, flag, heldFlag, hostileFiles, iptc, markersOf, SECRETS, withSegments, xmp } from './photo-files.ts';

let cast: Cast;
let dir: string;
beforeAll(async () => {
  cast = await openCast();
  dir = photoDirOf(cast.app.middenry.config);
});
afterAll(() => cast.close());

const files = (): string[] => {
  try {
    return readdirSync(dir).sort();
  } catch {
    return [];
  }
};
const rows = (): number => Number(cast.store.sqlite.prepare('SELECT count(*) FROM photo').pluck().get());
const fileOf = (id: string): string => String(cast.store.sqlite.prepare('SELECT file FROM photo WHERE id = ?').pluck().get(id));

const addressOf = (id: string, more: Record<string, string> = {}): string =>
  `/api/photos/${id}?${new URLSearchParams({ binId: BINS.tote, takenAt: '2026-11-25T09:59:00Z', kind: 'bin', people: 'none', ...more })}`;

function send(id: string, bytes: Buffer, more: Record<string, string> = {}, who: PersonKey = 'volunteer'): Promise<Answer> {
  return cast.call(who, 'PUT', addressOf(id, more), bytes, { 'content-type': 'image/jpeg' });
}

async function bytesOf(id: string, who: PersonKey = 'volunteer'): Promise<Buffer> {
  const answer = await cast.app.inject({ url: `/api/photos/${id}`, headers: { cookie: cast.cookie(who) } });
  expect([answer.statusCode, answer.headers['content-type']]).toEqual([200, 'image/jpeg']);
  return answer.rawPayload;
}

/** Red at the left edge, blue at the right: the flag as it was. */
async function isUpright(bytes: Buffer): Promise<boolean> {
  const { data, info } = await sharp(bytes).raw().toBuffer({ resolveWithObject: true });
  const colourAt = (x: number, y: number) => {
    const at = (y * info.width + x) * info.channels;
    return data[at]! > 128 ? 'red' : data[at + 2]! > 128 ? 'blue' : 'none';
  };
  const { width, height } = info;
  const seen = [colourAt(4, 4), colourAt(4, height - 5), colourAt(width - 5, 4), colourAt(width - 5, height - 5)];
  return width > height && seen.join() === 'red,red,blue,blue';
}

describe('a photo of a bin', () => {
  const id = freshId();

  it('B22: is kept with what it shows in words, and can be looked at', async () => {
    const bytes = await flag(3000, 2000).jpeg({ quality: 95 }).toBuffer();
    const answer = await send(id, bytes, { alt: 'Mites at the lid', kind: 'visitor' });
    expect(answer.status).toBe(201);
    const { width, height, alt, mine, by } = answer.body;
    expect({ width, height, alt, mine, by }).toEqual({
      ...{ width: 1600, height: 1067, alt: 'Mites at the lid', mine: true },
      by: { id: PEOPLE.volunteer.id, name: PEOPLE.volunteer.name },
    });
    const seen = await bytesOf(id);
    expect(seen.length).toBe(answer.body.bytes);
    const list = await cast.call('otherVolunteer', 'GET', `/api/bins/${BINS.tote}/photos`);
    expect(list.body.items).toEqual([{ ...answer.body, mine: false, mayTakeOff: false, by: { id: PEOPLE.volunteer.id, name: 'Otis B.' } }]);
  });

  it('E12: goes out with a fixed type, no sniffing and a name of ours, and lies in a file that nobody can guess', async () => {
    const { headers, status } = await cast.call('volunteer', 'GET', `/api/photos/${id}`);
    expect(headers).toMatchObject({
      'content-type': 'image/jpeg',
      'x-content-type-options': 'nosniff',
      'content-disposition': 'inline; filename="photo.jpg"',
      'cache-control': 'private, max-age=60, must-revalidate',
    });
    const again = await cast.call('volunteer', 'GET', `/api/photos/${id}`, undefined, { 'if-none-match': String(headers.etag) });
    expect([status, again.status, again.text]).toEqual([200, 304, '']);
    expect(files()).toEqual([expect.stringMatching(/^[0-9a-f]{32}\.jpg$/)]);
  });

  it('F28: sent twice is one photo; other bytes under its id are refused', async () => {
    const once = await flag(30, 20).jpeg().toBuffer();
    const twice = freshId();
    const answers = [await send(twice, once), await send(twice, once), await send(twice, await flag(60, 40).jpeg().toBuffer())];
    expect(answers.map(({ status, body }) => [status, body.code])).toEqual([
      [201, undefined],
      [200, undefined],
      [422, 'same-id-other-content'],
    ]);
    expect(answers[1]!.body).toEqual(answers[0]!.body);
    const atOnce = freshId();
    const both = await Promise.all([send(atOnce, once), send(atOnce, once)]);
    expect(both.map(({ status }) => status).sort()).toEqual([200, 201]);
    expect(files()).toHaveLength(rows());
  });

  it('B24: taken by a clock that is hours wrong it stands at the time it was taken, and a retry is the same photo', async () => {
    const [fast, bytes] = [freshId(), await flag(30, 20).jpeg().toBuffer()];
    const now = cast.clock.at.getTime();
    const by = (ahead: number) => new Date(now + ahead * 3_600_000).toISOString();
    const first = await send(fast, bytes, { takenAt: by(2 - 0.5), deviceAt: by(2) });
    expect([first.status, first.body.takenAt]).toEqual([201, by(-0.5)]);
    const again = await send(fast, bytes, { takenAt: by(2 - 0.5), deviceAt: by(2.1) });
    expect([again.status, again.body]).toEqual([200, first.body]);
    expect((await send(freshId(), bytes, { takenAt: by(1.5) })).body.code).toBe('date-in-future');
    await cast.call('volunteer', 'DELETE', `/api/photos/${fast}`);
  });

  it('B22: may come before its entry, and is not shown once that is undone', async () => {
    const [early, entryId] = [freshId(), freshId()];
    expect((await send(early, await flag(30, 20).png().toBuffer(), { entryId })).status).toBe(201);
    const note = { id: entryId, binId: BINS.tote, happenedAt: '2026-11-25T09:58:00Z', note: 'See the photo' };
    expect((await cast.call('volunteer', 'POST', '/api/notes', note)).status).toBe(201);
    const shown = async () =>
      (await cast.call('volunteer', 'GET', `/api/bins/${BINS.tote}/photos`)).body.items.map((one: { id: string }) => one.id);
    expect(await shown()).toContain(early);
    expect((await cast.call('volunteer', 'DELETE', `/api/entries/${entryId}`)).status).toBe(200);
    expect(await shown()).not.toContain(early);
    const foreign = await send(freshId(), await flag(30, 20).jpeg().toBuffer(), { entryId }, 'otherVolunteer');
    expect([foreign.status, foreign.body.errors[0].pointer]).toEqual([422, 'query/entryId']);
  });

  it('E.4: is seen by pupils of that site only, and by nobody who is not signed in', async () => {
    const school = freshId();
    expect((await send(school, await flag(30, 20).jpeg().toBuffer(), { binId: BINS.school })).status).toBe(201);
    const seen = async (who: PersonKey | null, photo: string) => (await cast.call(who, 'GET', `/api/photos/${photo}`)).status;
    expect([await seen('pupil', id), await seen('pupil', school), await seen(null, id), await seen('disabled', id)]).toEqual([
      200, 404, 401, 401,
    ]);
    expect((await send(freshId(), await flag(30, 20).jpeg().toBuffer(), {}, 'pupil')).status).toBe(403);
  });

  it('E.4: is taken off by whoever took it and by whoever looks after the site, and then is nowhere', async () => {
    const mine = freshId();
    await send(mine, await flag(30, 20).jpeg().toBuffer());
    const file = fileOf(mine);
    expect((await cast.call('otherVolunteer', 'DELETE', `/api/photos/${mine}`)).status).toBe(404);
    expect((await cast.call('siteLead', 'DELETE', `/api/photos/${mine}`)).status).toBe(204);
    expect((await cast.call('volunteer', 'GET', `/api/photos/${mine}`)).status).toBe(404);
    expect(files()).not.toContain(file);
    const audit = await cast.call('coordinator', 'GET', '/api/audit');
    expect(audit.body.items[0]).toMatchObject({ action: 'photo.taken-off-of-another', subject: mine, by: { id: PEOPLE.siteLead.id } });
    expect(SITES.meadow).toBeDefined();
  });

  it('C25: is refused unless whoever sends it says whether anybody is in it', async () => {
    const url = addressOf(freshId()).replace('people=none', 'people=perhaps');
    const answer = await cast.call('volunteer', 'PUT', url, await flag(30, 20).jpeg().toBuffer(), { 'content-type': 'image/jpeg' });
    expect([answer.status, answer.body.errors[0].pointer]).toEqual([422, 'query/people']);
  });

  it('B15: is taken from nobody but whoever took it', async () => {
    const answer = await send(freshId(), await flag(30, 20).jpeg().toBuffer(), { personId: PEOPLE.otherVolunteer.id });
    expect([answer.status, answer.body.code]).toEqual([403, 'not-allowed']);
  });

  it('E12: has its place among 200 MB of one person', async () => {
    const one = freshId();
    await send(one, await flag(30, 20).jpeg().toBuffer(), {}, 'siteLead');
    cast.store.sqlite.prepare('UPDATE photo SET bytes = ? WHERE id = ?').run(200 * 1024 * 1024, one);
    const before = files();
    const full = await send(freshId(), await flag(30, 20).jpeg().toBuffer(), {}, 'siteLead');
    expect([full.status, full.body.code]).toEqual([409, 'photo-quota']);
    expect(files()).toEqual(before);
    await cast.call('siteLead', 'DELETE', `/api/photos/${one}`);
  });
});

describe('E12: the hostile set', () => {
  test('has its twenty files, each answered as it must be, and leaves nothing behind', { timeout: 60_000 }, async () => {
    const set = await hostileFiles();
    expect(set).toHaveLength(20);
    const before = { files: files(), rows: rows() };
    const answers: [string, string][] = [];
    for (const { name, bytes } of set) {
      const id = freshId();
      const answer = await send(id, bytes);
      answers.push([name, answer.status === 201 ? 'taken' : answer.body.code]);
      if (answer.status !== 201) continue;
      const kept = await bytesOf(id);
      for (const secret of SECRETS) expect([name, kept.includes(secret)]).toEqual([name, false]);
      await cast.call('volunteer', 'DELETE', `/api/photos/${id}`);
    }
    expect(answers).toEqual(set.map(({ name, outcome }) => [name, outcome]));
    expect({ files: files(), rows: rows() }).toEqual(before);
  });
});

describe('E13: what is kept', () => {
  test('is upright, whichever of the eight ways the phone was held', async () => {
    for (let way = 1; way <= 8; way += 1) {
      const id = freshId();
      const held = await heldFlag(way);
      expect([way, (await sharp(held).metadata()).orientation]).toEqual([way, way]);
      expect([way, (await send(id, held)).status]).toEqual([way, 201]);
      expect([way, await isUpright(await bytesOf(id))]).toEqual([way, true]);
    }
  });

  test('has no EXIF, XMP, IPTC, profile or comment, in any file on the disk', async () => {
    const full = withSegments(
      await flag()
        .withExif({ IFD0: { Copyright: SECRETS[0]! } })
        .withIccProfile('p3')
        .jpeg()
        .toBuffer(),
      ...[xmp, iptc, comment],
    );
    expect([0xe1, 0xe2, 0xed, 0xfe].every((marker) => markersOf(full).includes(marker))).toBe(true);
    expect((await send(freshId(), full)).status).toBe(201);
    expect(files().length).toBeGreaterThan(8);
    for (const name of files()) {
      const kept = readFileSync(join(dir, name));
      // APP0 is JFIF's own head; nothing else but tables, frame and scan.
      expect(markersOf(kept).filter((marker) => marker >= 0xe1 && marker <= 0xef)).toEqual([]);
      expect(markersOf(kept)).not.toContain(0xfe);
      const { exif, xmp: packet, iptc: words, icc, orientation } = await sharp(kept).metadata();
      expect([exif, packet, words, icc, orientation]).toEqual([undefined, undefined, undefined, undefined, undefined]);
    }
  });
});

describe('F17: an upload that is cut', () => {
  /** Sends so much of the photo over a real connection and then ends its side, or pulls the plug. */
  async function sendPart(port: number, share: number, how: 'end' | 'destroy', entryId: string): Promise<string> {
    const photo = await flag(900, 600).jpeg({ quality: 100 }).toBuffer();
    const head = `PUT ${addressOf(freshId(), { entryId })} HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nCookie: ${cast.cookie('volunteer')}\r\n`;
    const socket = createConnection({ port, host: '127.0.0.1', allowHalfOpen: true });
    let said = '';
    socket.on('data', (piece) => {
      said += piece.toString();
    });
    const closed = new Promise<void>((resolve) => socket.once('close', () => resolve()));
    socket.on('error', () => undefined);
    socket.write(`${head}Content-Type: image/jpeg\r\nContent-Length: ${photo.length}\r\n\r\n`);
    const sent = photo.subarray(0, Math.ceil(photo.length * share));
    await new Promise<void>((resolve) => socket.write(sent, () => resolve()));
    if (how === 'end') socket.end();
    else {
      await expect.poll(() => files().filter((name) => name.endsWith('.part')).length).toBeGreaterThan(0);
      socket.destroy();
    }
    await closed;
    return said.split('\r\n')[0] ?? '';
  }

  test('at 1, 50 and 99 %: 400, no row, its file is gone, and the note it belongs to stays', async () => {
    const note = { id: freshId(), binId: BINS.tote, happenedAt: '2026-11-25T09:57:00Z', note: 'The photo of this is cut off' };
    expect((await cast.call('volunteer', 'POST', '/api/notes', note)).status).toBe(201);
    const port = Number(new URL(await cast.app.listen({ port: 0, host: '127.0.0.1' })).port);
    const before = { files: files(), rows: rows() };
    for (const share of [0.01, 0.5, 0.99]) {
      expect([share, await sendPart(port, share, 'end', note.id)]).toEqual([share, 'HTTP/1.1 400 Bad Request']);
      await sendPart(port, share, 'destroy', note.id);
      await expect.poll(files).toEqual(before.files);
      expect(rows()).toBe(before.rows);
      const kept = await cast.call('volunteer', 'GET', `/api/entries/${note.id}`);
      expect([kept.status, kept.body.note, kept.body.undone ?? null]).toEqual([200, note.note, null]);
    }
  });
});

test('after a sudden end: files without a row, and half files, are cleared away at the start and no other', () => {
  const before = files();
  writeFileSync(join(dir, `${'0'.repeat(32)}.jpg`), 'no row names me');
  writeFileSync(join(dir, `${'1'.repeat(32)}.jpg.part`), 'half');
  expect(sweep(cast.store, dir)).toBe(2);
  expect(files()).toEqual(before);
  expect(before).toHaveLength(rows());
});
