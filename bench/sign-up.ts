import { randomUUID } from 'node:crypto';
import { openShifts } from '../apps/api/src/db/repositories/shift.ts';
import { TAKE_PLACE } from '../apps/api/src/db/repositories/sign-up.ts';
import { write } from '../apps/api/src/db/store.ts';
import { type Cast, openCast, SITES } from '../tests/cast.ts';
import { table, timesOf } from './measure.ts';
import { uuid7 } from './uuid7.ts';

const PEOPLE = 500;
/** Twelve weeks of ten shifts. */
const WEEKS = 12;
const WEEKDAYS = [1, 2, 3, 4, 5];
const PLACES = 60;
const SIGN_UPS = 1500;
const MS_PER_SECOND = 1000;

interface Stage {
  readonly cast: Cast;
  readonly people: readonly { readonly id: string; readonly cookie: string }[];
  readonly shiftIds: readonly string[];
}

async function stage(): Promise<Stage> {
  const cast = await openCast();
  const people = [];
  for (let at = 0; at < PEOPLE; at += 1) {
    const id = uuid7();
    await cast.call('coordinator', 'POST', '/api/people', { id, name: `Helper ${at}`, role: 'volunteer' });
    people.push({ id, cookie: cast.app.middenry.cookieOf(id) });
  }
  const shiftIds: string[] = [];
  for (const [siteId, localTime] of [
    [SITES.meadow, '09:00'],
    [SITES.school, '16:00'],
  ] as const) {
    const row = {
      siteId,
      title: 'Round',
      localDate: '2026-11-30',
      localTime,
      minutes: 60,
      places: PLACES,
      weeks: WEEKS,
      weekdays: WEEKDAYS,
    };
    const made = await cast.call('coordinator', 'POST', '/api/shifts', { id: uuid7(), ...row });
    shiftIds.push(...made.body.items.map((item: { id: string }) => item.id));
  }
  return { cast, people, shiftIds };
}

/** The nth pair of person and shift, never the same twice. */
const pairOf = ({ people, shiftIds }: Stage, nth: number) => ({
  person: people[nth % people.length]!,
  shiftId: shiftIds[(nth + Math.floor(nth / people.length) * 7) % shiftIds.length]!,
});

async function throughTheApi(here: Stage): Promise<number> {
  const since = performance.now();
  for (let nth = 0; nth < SIGN_UPS; nth += 1) {
    const { person, shiftId } = pairOf(here, nth);
    const url = `/api/shifts/${shiftId}/sign-ups`;
    const answer = await here.cast.call(null, 'POST', url, { id: uuid7() }, { cookie: person.cookie });
    if (answer.status !== 201) throw new Error(`Cannot measure as every place must be free: current value is ${answer.text}`);
  }
  return (SIGN_UPS * MS_PER_SECOND) / (performance.now() - since);
}

function byTheBareStatement(here: Stage): number {
  const { store } = here.cast;
  const at = '2026-11-25T10:00:00.000Z';
  const since = performance.now();
  for (let nth = SIGN_UPS; nth < 2 * SIGN_UPS; nth += 1) {
    const { person, shiftId } = pairOf(here, nth);
    const wish = { id: randomUUID(), shiftId, personId: person.id, at, keepsOffers: 1 };
    const changed = write(store, () => store.sql(TAKE_PLACE).run(wish).changes);
    if (changed !== 1) throw new Error(`Cannot measure as every place must be free: current value is ${changed}`);
  }
  return (SIGN_UPS * MS_PER_SECOND) / (performance.now() - since);
}

/** How long somebody waits for the word that all is full, with who waits and the nearest free shifts in it (criteria C2). */
async function fullWords(here: Stage): Promise<number[]> {
  const { cast, people } = here;
  const row = { siteId: SITES.meadow, title: 'Full', localDate: '2026-12-05', localTime: '10:00', minutes: 60, places: 1 };
  const made = await cast.call('coordinator', 'POST', '/api/shifts', { id: uuid7(), ...row });
  const url = `/api/shifts/${made.body.items[0].id}/sign-ups`;
  const took: number[] = [];
  for (const [nth, { cookie }] of people.entries()) {
    const since = performance.now();
    const answer = await cast.call(null, 'POST', url, { id: uuid7() }, { cookie });
    const wanted = nth === 0 ? 201 : 409;
    if (answer.status !== wanted) throw new Error(`Cannot measure as only the first gets the place: current value is ${answer.text}`);
    if (nth > 0) took.push(performance.now() - since);
  }
  return took;
}

/** Places taken in a second, against the bare conditional insert; and the page of open places for five hundred people. */
export async function benchSignUp(): Promise<string> {
  const here = await stage();
  try {
    const { cast, people, shiftIds } = here;
    const ours = await throughTheApi(here);
    const bare = byTheBareStatement(here);
    const pages: number[] = [];
    let open = 0;
    for (const { cookie } of people) {
      const since = performance.now();
      const answer = await cast.call(null, 'GET', '/api/places?days=90', undefined, { cookie });
      pages.push(performance.now() - since);
      open = answer.body.open.length;
    }
    const range = { from: '2026-11-24', to: '2027-02-24', siteId: null, limit: 300 };
    const bareList: number[] = [];
    for (let done = 0; done < people.length; done += 1) {
      const since = performance.now();
      openShifts(cast.store, range);
      bareList.push(performance.now() - since);
    }
    const list = { ours: timesOf(pages), bare: timesOf(bareList), full: timesOf(await fullWords(here)) };
    return [
      table(
        ['what', 'a second', 'against the bare insert'],
        [
          ['places taken through the API, answers checked', ours, `${(bare / ours).toFixed(1)} x slower`],
          ['bare conditional insert, a transaction each', bare, '1'],
        ],
      ),
      '',
      table(
        [`page of places, ${people.length} people, ${shiftIds.length} shifts`, 'median ms', 'p95 ms'],
        [
          [`all of it, ${open} open`, list.ours.medianMs, list.ours.p95Ms],
          ['bare query for open shifts', list.bare.medianMs, list.bare.p95Ms],
          ['told that a shift is full, and what is free near it (C2)', list.full.medianMs, list.full.p95Ms],
        ],
      ),
    ].join('\n');
  } finally {
    await here.cast.close();
  }
}
