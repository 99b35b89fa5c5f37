/** Random histories of one shift with pupils, told through the services, and judged from the bare rows by another count (criteria C19). */
import fc from 'fast-check';
import type { Store } from '../../apps/api/src/db/store.ts';
import { type Cast, freshId, PEOPLE, type PersonKey, SITES } from '../cast.ts';

const ADULTS = ['volunteer', 'otherVolunteer', 'siteLead'] as const satisfies readonly PersonKey[];
const PER_ADULT = { '4-8': 6, '9-12': 8, '13-18': 10 } as const;
type Band = keyof typeof PER_ADULT;
export const BANDS = Object.keys(PER_ADULT) as Band[];

export const step = fc.record({
  what: fc.constantFrom('take', 'give-back', 'clear', 'unclear', 'not-18', 'is-18', 'bring', 'take-off', 'lower', 'raise', 'hand-over'),
  who: fc.constantFrom(...ADULTS),
  band: fc.constantFrom(...BANDS),
  pupils: fc.integer({ min: 1, max: 20 }),
});
type Step = typeof step extends fc.Arbitrary<infer T> ? T : never;

export interface HistoryStage {
  readonly cast: Cast;
  /** One class of each age. */
  readonly classes: Readonly<Record<Band, string>>;
}

export async function historyStage(cast: Cast): Promise<HistoryStage> {
  // Nothing here needs to outlive a power cut, and ten thousand histories need the time.
  cast.store.sqlite.pragma('synchronous = OFF');
  const classes = Object.fromEntries(BANDS.map((band) => [band, freshId()])) as Record<Band, string>;
  for (const band of BANDS)
    await cast.call('siteLead', 'POST', '/api/classes', { id: classes[band], siteId: SITES.meadow, name: `Ages ${band}`, ageBand: band });
  return { cast, classes };
}

interface Shown {
  readonly adults: { readonly state: string };
  readonly signUps: readonly { readonly id: string; readonly personId: string }[];
  readonly groups: readonly { readonly id: string }[];
}

/** Lives one history through and gives every moment in which what is shown and what is true differ. */
export async function faultsIn({ cast, classes }: HistoryStage, history: readonly Step[]): Promise<string[]> {
  const shiftId = freshId();
  const shift = {
    siteId: SITES.meadow,
    title: 'Class',
    localDate: '2026-12-05',
    localTime: '10:00',
    minutes: 60,
    places: 3,
    pupilPlaces: 60,
  };
  await cast.call('siteLead', 'POST', '/api/shifts', { id: shiftId, ...shift });
  const faults: string[] = [];
  for (const [at, each] of history.entries()) {
    const before = (await cast.call('siteLead', 'GET', `/api/shifts/${shiftId}`)).body as Shown;
    await doStep(cast, classes, shiftId, before, each);
    const shown = ((await cast.call('volunteer', 'GET', `/api/shifts/${shiftId}`)).body as Shown).adults.state;
    const truth = judged(cast.store, shiftId);
    if (shown !== truth) faults.push(`step ${at} ${each.what}: shows ${shown}, is ${truth}`);
  }
  return faults;
}

async function doStep(cast: Cast, classes: HistoryStage['classes'], shiftId: string, before: Shown, { what, who, band, pupils }: Step) {
  const url = `/api/shifts/${shiftId}`;
  const personId = PEOPLE[who].id;
  const held = before.signUps.find((signUp) => signUp.personId === personId);
  const mark = (change: object) => cast.call('coordinator', 'PATCH', `/api/people/${personId}`, change);
  if (what === 'take') await cast.call(who, 'POST', `${url}/sign-ups`, { id: freshId() });
  if (what === 'give-back' && held) await cast.call(who, 'DELETE', `${url}/sign-ups/${held.id}`);
  if (what === 'clear') await mark({ cleared: true });
  if (what === 'unclear') await mark({ cleared: false });
  // A lead must be 18; for them this is refused and changes nothing.
  if (what === 'not-18') await mark({ isAdult: false });
  if (what === 'is-18') await mark({ isAdult: true });
  if (what === 'bring') await cast.call('siteLead', 'POST', `${url}/groups`, { id: freshId(), classId: classes[band], pupils });
  if (what === 'take-off' && before.groups[0]) await cast.call('siteLead', 'DELETE', `${url}/groups/${before.groups[0].id}`);
  if (what === 'lower') await cast.call('siteLead', 'PATCH', url, { leastAdults: 1, leastAdultsReason: 'The teacher stays with them.' });
  if (what === 'raise') await cast.call('siteLead', 'PATCH', url, { leastAdults: 2 });
  if (what === 'hand-over' && held) {
    const swapId = freshId();
    await cast.call(who, 'POST', `${url}/swaps`, { id: swapId, signUpId: held.id });
    const other = ADULTS[(ADULTS.indexOf(who) + 1) % ADULTS.length]!;
    await cast.call(other, 'POST', `/api/swaps/${swapId}/accept`, { id: freshId() });
  }
}

/** The rule counted again from the rows, by nothing of the product. */
function judged(store: Store, shiftId: string): string {
  const groups = store.sqlite
    .prepare(
      'SELECT g.pupils, c.age_band AS band FROM shift_group g JOIN class c ON c.id = g.class_id WHERE g.shift_id = ? AND g.ended_at IS NULL',
    )
    .all(shiftId) as { pupils: number; band: Band }[];
  if (groups.length === 0) return 'no-pupils';
  const adults = store.sqlite
    .prepare(
      `SELECT count(*) FROM sign_up u JOIN person p ON p.id = u.person_id
       WHERE u.shift_id = ? AND u.given_back_at IS NULL AND p.is_adult = 1 AND p.cleared_at IS NOT NULL`,
    )
    .pluck()
    .get(shiftId) as number;
  const least = store.sqlite.prepare('SELECT least_adults FROM shift WHERE id = ?').pluck().get(shiftId) as number;
  let pupils = 0;
  let ratio = Number.POSITIVE_INFINITY;
  for (const group of groups) {
    pupils += group.pupils;
    ratio = Math.min(ratio, PER_ADULT[group.band]);
  }
  return adults >= least && adults * ratio >= pupils ? 'confirmed' : 'needs-adult';
}
