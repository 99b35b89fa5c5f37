/** Photos of people: only of those who consent, and hidden as soon as one of them does not any more. Time is the cast's own. */
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it, test } from 'vitest';
import { photoDirOf } from '../../apps/api/src/photos/shelf.ts';
import { WORDINGS } from '../../apps/api/src/services/consent/wordings.data.ts';
import { BINS, type Cast, freshId, openCast, PEOPLE, type PersonKey } from '../cast.ts';
import { anyFilesOf, exportTo, filesOf } from './export-zip.ts';
import { consent } from './hostile/consent-samples.ts';
import { stagesOf } from './hostile/stage.ts';
import { peopleInPhotos } from './people-in-photos.ts';

const stages = stagesOf(async () => ({ cast: await openCast() }) as never);
const dir = mkdtempSync(join(tmpdir(), 'middenry-consents-'));
let cast: Cast;
beforeEach(async () => {
  cast = (await stages.next()).cast;
});
afterAll(async () => {
  await stages.close();
  rmSync(dir, { recursive: true, force: true });
});

const OTIS = PEOPLE.volunteer.id;
const MAREN = PEOPLE.otherVolunteer.id;
const JUNO = PEOPLE.pupil.id;

const switchOn = (photosOfPeople = true) => cast.call('coordinator', 'PATCH', '/api/programme', { photosOfPeople });
const { give, withdraw, send, sendOf } = peopleInPhotos(() => cast);
const READERS = ['pupil', 'volunteer', 'otherVolunteer', 'siteLead', 'coordinator', 'owner'] as const;
/** Who of them can see it, by its address and in the list of its bin. */
async function seenBy(id: string): Promise<Record<string, string>> {
  const seen: Record<string, string> = {};
  for (const who of READERS) {
    const { status } = await cast.call(who, 'GET', `/api/photos/${id}`);
    const { items } = (await cast.call(who, 'GET', `/api/bins/${BINS.tote}/photos`)).body;
    seen[who] = `${status}${items.some((one: { id: string }) => one.id === id) ? ' listed' : ''}`;
  }
  return seen;
}
const all = (what: string) => Object.fromEntries(READERS.map((who) => [who, what]));
const fileOf = (id: string) => {
  const name = cast.store.sqlite.prepare('SELECT file FROM photo WHERE id = ?').pluck().get(id);
  return name === undefined ? null : join(photoDirOf(cast.app.middenry.config), String(name));
};
/** In which tables of an export of everything it stands, and whether a picture is in it. */
async function exportedWith(id: string): Promise<string[]> {
  const zip = join(dir, 'all.zip');
  await exportTo(zip, { file: cast.store.sqlite.name, photoDir: photoDirOf(cast.app.middenry.config), now: cast.clock.at });
  const files = await filesOf(zip);
  const tables = [...files.keys()].filter((name) => /^data\/.*photo/.test(name) && files.get(name)!.includes(id));
  return [...tables, ...([...files.keys()].some((name) => name.startsWith('photos/')) ? ['photos'] : [])];
}
const goTo = async (day: string) => {
  cast.clock.at = new Date(`${day}T10:00:00.000Z`);
  await cast.app.middenry.keeper!.look();
};

describe('C25: a photo of people', () => {
  it('is refused in words until the programme shows them, and then until everybody in it consents', async () => {
    const codes: string[] = [];
    const tryIt = async () => {
      const { status, body } = await send('coordinator', freshId(), { people: 'some', personIds: `${OTIS},${MAREN}` });
      codes.push(`${status} ${body.code ?? ''}`.trim());
      return body;
    };
    await tryIt();
    expect((await cast.call('volunteer', 'PATCH', '/api/programme', { photosOfPeople: true })).status).toBe(403);
    expect((await switchOn()).body.photosOfPeople).toBe(true);
    await give('volunteer', OTIS);
    const { help, detail } = await tryIt();
    expect([help, detail.split(' ').length <= 25]).toEqual([{ personIds: [MAREN] }, true]);
    // To be shown in reports is another matter.
    await give('otherVolunteer', MAREN, { purpose: 'report' });
    await tryIt();
    await give('otherVolunteer', MAREN);
    await tryIt();
    expect(codes).toEqual(['409 photos-of-people-off', '409 consent-missing', '409 consent-missing', '201']);
  });

  it('from a volunteer waits, seen by coordinators alone, until one of them says who is in it', async () => {
    await switchOn();
    await give('volunteer', OTIS);
    const id = freshId();
    expect((await send('volunteer', freshId(), { people: 'some', personIds: OTIS })).status).toBe(403);
    expect((await send('volunteer', id, { people: 'some' })).status).toBe(201);
    expect(await seenBy(id)).toEqual({ ...all('404'), coordinator: '200', owner: '200' });
    const [waiting] = (await cast.call('coordinator', 'GET', '/api/photos-of-people')).body.items;
    expect(waiting).toMatchObject({ id, state: 'waiting', named: [], deletedOn: '2026-12-23T10:00:00.000Z' });
    const say = (who: PersonKey, body: unknown) => cast.call(who, 'PUT', `/api/photos/${id}/people`, body);
    expect((await say('coordinator', { people: 'some', personIds: [MAREN] })).body.code).toBe('consent-missing');
    expect((await say('coordinator', { people: 'some', personIds: [OTIS] })).body).toMatchObject({ state: 'shown', deletedOn: null });
    expect(await seenBy(id)).toEqual(all('200 listed'));
    const { headers } = await cast.call('volunteer', 'GET', `/api/photos/${id}`);
    expect(headers['cache-control']).toBe('private, no-cache');
  });

  it('that was sent as one of nobody is hidden at once when somebody is found in it, and shown again if it was a mistake', async () => {
    const id = freshId();
    await send('volunteer', id, { people: 'none' });
    expect(await seenBy(id)).toEqual(all('200 listed'));
    const say = (who: PersonKey, people: string) => cast.call(who, 'PUT', `/api/photos/${id}/people`, { people });
    expect([(await say('otherVolunteer', 'some')).status, (await say('siteLead', 'some')).status]).toEqual([404, 200]);
    expect(await seenBy(id)).toEqual({ ...all('404'), coordinator: '200', owner: '200' });
    expect([(await say('siteLead', 'none')).status, (await say('coordinator', 'none')).status]).toEqual([404, 200]);
    expect(await seenBy(id)).toEqual(all('200 listed'));
    const actions = (await cast.call('owner', 'GET', '/api/audit?limit=2')).body.items.map(({ action }: { action: string }) => action);
    expect(actions).toEqual(['photo.people-said', 'photo.people-said']);
  });

  it('is hidden from everybody as soon as one of them withdraws, goes into no export, and is deleted within 30 days', async () => {
    await switchOn();
    const [otis, maren] = [await give('volunteer', OTIS), await give('otherVolunteer', MAREN)];
    const id = await sendOf(OTIS, MAREN);
    const file = fileOf(id)!;
    expect(await seenBy(id)).toEqual(all('200 listed'));
    expect(await exportedWith(id)).toEqual(['data/photo.json', 'data/photo_person.json', 'photos']);
    expect((await withdraw('otherVolunteer', maren)).status).toBe(204);
    expect(await seenBy(id)).toEqual(all('404'));
    expect(await exportedWith(id)).toEqual([]);
    expect((await cast.call('coordinator', 'PUT', `/api/photos/${id}/people`, { people: 'some', personIds: [OTIS] })).status).toBe(404);
    await goTo('2026-12-22');
    expect(existsSync(file)).toBe(true);
    await goTo('2026-12-24');
    expect([fileOf(id), existsSync(file)]).toEqual([null, false]);
    // The record itself stays a year, and those who did not withdraw still consent.
    const records = (await cast.call('coordinator', 'GET', '/api/consents')).body.items;
    expect(records.map((one: { id: string; withdrawnAt: string | null }) => [one.id, one.withdrawnAt])).toEqual([
      [otis, null],
      [maren, '2026-11-25T10:00:00.000Z'],
    ]);
    await goTo('2027-11-27');
    expect(cast.store.sqlite.prepare('SELECT id FROM consent').pluck().all()).toEqual([otis]);
  });

  it('is hidden while the programme shows no people, and when nobody names who is in it, deleted like one that was withdrawn', async () => {
    await switchOn();
    await give('volunteer', OTIS);
    const [named, unnamed] = [await sendOf(OTIS), freshId()];
    await send('volunteer', unnamed, { people: 'some' });
    await switchOn(false);
    expect(await seenBy(named)).toEqual(all('404'));
    await switchOn();
    expect(await seenBy(named)).toEqual(all('200 listed'));
    await goTo('2026-12-24');
    expect([fileOf(named) === null, fileOf(unnamed)]).toEqual([false, null]);
  });
});

describe('C25: a consent', () => {
  it('says who gave it, for whom, to what, by which words, when, and when it was withdrawn; the audit knows too', async () => {
    const id = await give('coordinator', JUNO, { givenBy: 'guardian' });
    const [given] = (await cast.call('coordinator', 'GET', `/api/people/${JUNO}/consents`)).body.items;
    const by = { id: PEOPLE.coordinator.id, name: PEOPLE.coordinator.name };
    expect(given).toEqual({
      ...{ id, person: { id: JUNO, name: PEOPLE.pupil.name }, givenBy: 'guardian', purpose: 'photo', wording: 1, enteredBy: by },
      ...{ givenAt: '2026-11-25T10:00:00.000Z', withdrawnAt: null },
    });
    cast.clock.at = new Date('2026-11-26T09:00:00.000Z');
    await withdraw('coordinator', id);
    expect((await withdraw('coordinator', id)).status).toBe(204);
    const { items } = (await cast.call('coordinator', 'GET', '/api/consents')).body;
    expect(items).toEqual([{ ...given, withdrawnAt: '2026-11-26T09:00:00.000Z' }]);
    const audit = (await cast.call('owner', 'GET', '/api/audit?limit=2')).body.items;
    expect(audit.map(({ action, subject }: Record<string, string>) => [action, subject])).toEqual([
      ['consent.withdrawn', JUNO],
      ['consent.given', JUNO],
    ]);
  });

  it('is given by adults for themselves, and for pupils by a guardian or the school alone', async () => {
    const tries: [PersonKey, string, string][] = [
      ['coordinator', OTIS, 'self'],
      ['coordinator', OTIS, 'guardian'],
      ['volunteer', MAREN, 'self'],
      ['siteLead', JUNO, 'guardian'],
      ['coordinator', JUNO, 'self'],
      ['coordinator', JUNO, 'school'],
    ];
    const outcome = [];
    for (const [who, personId, givenBy] of tries)
      outcome.push((await cast.call(who, 'POST', '/api/consents', consent(freshId(), personId, { givenBy }))).status);
    expect(outcome).toEqual([403, 422, 404, 404, 422, 201]);
  });

  test("words that were published stay as they are, and are read in the reader's language", async () => {
    const hashes = WORDINGS.map((one) => createHash('sha256').update(JSON.stringify(one)).digest('hex').slice(0, 16));
    expect(hashes).toEqual(['9d9ab0cf457c62b2']);
    const read = async (language: string) =>
      (await cast.call('volunteer', 'GET', '/api/consent-wordings', undefined, { 'accept-language': language })).body.items;
    const [english, spanish] = [await read('en'), await read('es')];
    expect([english[0].version, english[0].self.photo]).toEqual([WORDINGS.length, WORDINGS.at(-1)!.texts.en.self.photo]);
    expect(spanish[0].pupil.report).toContain('En nombre del alumno');
    const old = await cast.call('volunteer', 'POST', '/api/consents', consent(freshId(), OTIS, { wording: WORDINGS.length + 1 }));
    expect([old.status, old.body.errors[0].pointer]).toEqual([422, '/wording']);
  });
});

describe('C25, C27, C28: whoever is erased', () => {
  for (const [who, personId, url, by] of [
    ['a volunteer', OTIS, `/api/people/${OTIS}`, 'volunteer'],
    ['a pupil', JUNO, `/api/people/${JUNO}`, 'coordinator'],
  ] as const)
    it(`${who} consents no longer, and the photos with them are deleted at once`, async () => {
      await switchOn();
      const id = await give(by, personId, { givenBy: personId === JUNO ? 'school' : 'self' });
      await give('otherVolunteer', MAREN);
      const [together, others] = [await sendOf(personId, MAREN), await sendOf(MAREN)];
      const file = fileOf(together)!;
      expect((await cast.call('owner', 'DELETE', url)).status).toBe(204);
      expect([fileOf(together), existsSync(file), existsSync(fileOf(others)!)]).toEqual([null, false, true]);
      const record = (await cast.call('coordinator', 'GET', '/api/consents')).body.items.find((one: { id: string }) => one.id === id);
      expect([record.person, record.withdrawnAt]).toEqual([null, '2026-11-25T10:00:00.000Z']);
    });

  it('takes along their consents and the photos they are named in, and no picture of anybody else', async () => {
    await switchOn();
    await give('volunteer', OTIS);
    await give('otherVolunteer', MAREN);
    const id = freshId();
    await send('volunteer', id, { people: 'some' });
    await cast.call('coordinator', 'PUT', `/api/photos/${id}/people`, { people: 'some', personIds: [OTIS, MAREN] });
    const answer = await cast.app.inject({ url: `/api/people/${OTIS}/data.zip`, headers: { cookie: cast.cookie('volunteer') } });
    const files = await anyFilesOf(answer.rawPayload);
    const { tables } = JSON.parse(files.get('my-data.json')!.toString('utf8'));
    expect(tables.consent).toEqual([expect.objectContaining({ person_id: OTIS, purpose: 'photo', wording: 1, given_by: 'self' })]);
    expect([tables.photo_person, tables.photo]).toEqual([[{ photo_id: id, person_id: OTIS }], undefined]);
    expect([...files.keys()].filter((name) => name.startsWith('photos/'))).toEqual([]);
  });
});
