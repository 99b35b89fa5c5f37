/** Photos in reports: a few, with words, and gone with the consent of whoever is in them. */
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { BINS, type Cast, freshId, openCast, PEOPLE, SITES } from '../cast.ts';
import { stagesOf } from './hostile/stage.ts';
import { peopleInPhotos } from './people-in-photos.ts';

const stages = stagesOf(async () => ({ cast: await openCast() }) as never);
let cast: Cast;
beforeEach(async () => {
  cast = (await stages.next()).cast;
});
afterAll(() => stages.close());

const OTIS = PEOPLE.volunteer.id;
const { give, withdraw, send, sendOf } = peopleInPhotos(() => cast);

describe('D15: photos in a report', () => {
  const autumn = { siteId: SITES.meadow, name: 'Autumn', from: '2026-09-01', to: '2026-11-30' };
  let seasonId: string;
  beforeEach(async () => {
    seasonId = freshId();
    await cast.call('owner', 'POST', '/api/seasons', { id: seasonId, ...autumn });
    await cast.call('coordinator', 'PATCH', '/api/programme', { photosOfPeople: true });
    await give('volunteer', OTIS);
  });
  const sendBin = async (binId: string = BINS.tote) => {
    const id = freshId();
    await send('volunteer', id, { people: 'none', binId });
    return id;
  };
  const choose = (photos: { photoId: string; alt: string }[]) =>
    cast.call('siteLead', 'PUT', `/api/seasons/${seasonId}/photos`, { photos });
  const read = async (url: string) => {
    const { items, gone } = (await cast.call('siteLead', 'GET', url)).body;
    return { shown: items.map((one: { photoId: string; alt: string }) => [one.photoId, one.alt]), gone };
  };

  it('are at most eight, each with words, and only those that may be shown there', async () => {
    const bins = [];
    for (let n = 0; n < 9; n += 1) bins.push({ photoId: await sendBin(), alt: `Photo ${n}` });
    const people = await sendOf(OTIS);
    const refusals = [
      await choose(bins),
      await choose([{ photoId: bins[0]!.photoId, alt: '  ' }]),
      await choose([{ photoId: people, alt: 'Otis turns the tote' }]),
      await choose([{ photoId: await sendBin(BINS.school), alt: 'At the school' }]),
    ];
    expect(refusals.map(({ status, body }) => [status, body.errors[0].pointer])).toEqual([
      [422, '/photos'],
      [422, '/photos/0/alt'],
      [422, '/photos/0/photoId'],
      [422, '/photos/0/photoId'],
    ]);
    const choice = async () =>
      (await cast.call('siteLead', 'GET', `/api/seasons/${seasonId}/photos`)).body.choice.map((one: { photoId: string }) => one.photoId);
    expect([(await choice()).length, (await choice()).includes(people)]).toEqual([9, false]);
    await give('volunteer', OTIS, { purpose: 'report' });
    expect(await choice()).toContain(people);
    const eight = [{ photoId: people, alt: 'Otis turns the tote' }, ...bins.slice(2)];
    expect((await choose(eight)).status).toBe(200);
    expect(await read(`/api/seasons/${seasonId}/photos`)).toEqual({ shown: eight.map(({ photoId, alt }) => [photoId, alt]), gone: 0 });
  });

  it('vanish with the consent, from a published report too, which keeps its numbers and says that one is gone', async () => {
    const [bin, people] = [await sendBin(), await sendOf(OTIS)];
    const report = await give('volunteer', OTIS, { purpose: 'report' });
    await choose([
      { photoId: people, alt: 'Otis turns the tote' },
      { photoId: bin, alt: 'Castings' },
    ]);
    const id = freshId();
    expect((await cast.call('siteLead', 'POST', '/api/published-seasons', { id, ...autumn })).status).toBe(201);
    const numbers = async () => (await cast.call('siteLead', 'GET', `/api/published-seasons/${id}`)).body;
    const before = await numbers();
    const photos = () => read(`/api/published-seasons/${id}/photos`);
    expect(await photos()).toEqual({
      shown: [
        [people, 'Otis turns the tote'],
        [bin, 'Castings'],
      ],
      gone: 0,
    });
    await withdraw('volunteer', report);
    expect(await photos()).toEqual({ shown: [[bin, 'Castings']], gone: 1 });
    // Shown to members still, as that consent holds.
    expect((await cast.call('siteLead', 'GET', `/api/photos/${people}`)).status).toBe(200);
    await cast.call('volunteer', 'DELETE', `/api/photos/${bin}`);
    expect(await photos()).toEqual({ shown: [], gone: 2 });
    expect(await read(`/api/seasons/${seasonId}/photos`)).toEqual({ shown: [], gone: 1 });
    expect(await numbers()).toEqual(before);
    const words = cast.store.sqlite.prepare("SELECT count(*) FROM published_season_photo WHERE alt LIKE '%Castings%'").pluck().get();
    expect(words).toBe(0);
  });
});
