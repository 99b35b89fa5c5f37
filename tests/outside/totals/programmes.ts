/** Random programmes of four weeks each, kept through the API; what was typed is kept beside them, for somebody else to add up. */
import fc from 'fast-check';
import { BINS, type Cast, freshId, PEOPLE, SITES } from '../../cast.ts';

export const PROGRAMMES = [0, 1, 2, 3, 4] as const;
const FIRST_SEED = 700;
const DAYS_EACH = 28;
const GRAMS_PER_KG = 1000;
const FOODS = ['apple', 'banana_peel', 'coffee_grounds'] as const;
const SECOND_AT_SCHOOL = freshId();
export const BIN_SITES: Readonly<Record<string, string>> = {
  [BINS.tote]: SITES.meadow,
  [BINS.flow]: SITES.meadow,
  [BINS.school]: SITES.school,
  [SECOND_AT_SCHOOL]: SITES.school,
};

export const TYPED_KINDS = ['weighed', 'estimated', 'bedding', 'harvested'] as const;
export interface Typed {
  readonly bin: string;
  readonly site: string;
  readonly month: string;
  readonly kind: (typeof TYPED_KINDS)[number];
  readonly grams: number;
  readonly isUndone: boolean;
}

const dayOf = (programme: number, offset: number): string =>
  new Date(Date.UTC(2026, 5, 8 + programme * DAYS_EACH + offset)).toISOString().slice(0, 'yyyy-mm-dd'.length);
export const spanOf = (programme: number): string => `from=${dayOf(programme, 0)}&to=${dayOf(programme, DAYS_EACH - 1)}`;

const grams = (max: number) => fc.integer({ min: 1, max });
const at = {
  bin: fc.constantFrom(...Object.keys(BIN_SITES)),
  offset: fc.integer({ min: 0, max: DAYS_EACH - 1 }),
  isUndone: fc.integer({ min: 0, max: 5 }).map((n) => n === 0),
};
const feeding = fc.record({
  ...at,
  beddingG: fc.integer({ min: 0, max: 5000 }),
  items: fc.array(
    fc.record({ food: fc.constantFrom(...FOODS), grams: grams(20_000), how: fc.constantFrom('weighed', 'container', 'guessed') }),
    { minLength: 1, maxLength: 4 },
  ),
});
const harvest = fc.record({
  ...at,
  buckets: fc.array(fc.record({ grams: grams(9000), tareG: fc.integer({ min: 0, max: 900 }) }), { minLength: 1, maxLength: 4 }),
  volumeMl: fc.option(grams(20_000)),
  squeeze: fc.constantFrom(null, 'damp'),
  destination: fc.constantFrom('beds', 'plots', 'stock', 'given-away'),
});
const shift = fc.record({ offset: at.offset, minutes: fc.integer({ min: 15, max: 240 }), places: fc.integer({ min: 1, max: 9 }) });
const programmes = fc.record({
  feedings: fc.array(feeding, { minLength: 14, maxLength: 22 }),
  harvests: fc.array(harvest, { minLength: 5, maxLength: 9 }),
  // On days of their own, so that one person can come to all.
  shifts: fc.uniqueArray(shift, { minLength: 1, maxLength: 4, selector: ({ offset }) => offset }),
  moves: fc.array(fc.record({ offset: at.offset, inG: grams(9000), share: fc.integer({ min: 1, max: 100 }) }), {
    minLength: 1,
    maxLength: 3,
  }),
});

const kg = (whole: number): number => whole / GRAMS_PER_KG;
const sumOf = (rows: readonly { readonly grams: number }[]): number => rows.reduce((sum, row) => sum + row.grams, 0);

async function make(cast: Cast, path: string, body: object): Promise<string> {
  const id = freshId();
  const answer = await cast.call('owner', 'POST', path, { id, ...body });
  if (answer.status >= 300) throw new Error(`${path}: ${answer.text}`);
  return id;
}

export async function addSecondBinAtSchool(cast: Cast): Promise<void> {
  const shape = { kind: 'tote', areaM2: 0.2, depthM: 0.35, zones: 1, startedOn: '2026-06-01', wormsKg: 0.5, bedWaterKg: 4 };
  const bed = [{ materialId: 'cardboard_corrugated', massKg: 2 }];
  await make(cast, '/api/bins', { id: SECOND_AT_SCHOOL, siteId: SITES.school, code: 'S2', name: 'Window tray', ...shape, bed });
}

async function holdShift(cast: Cast, localDate: string, { minutes, places }: { minutes: number; places: number }): Promise<void> {
  const shift = { siteId: SITES.meadow, title: 'Round', localDate, localTime: '09:00', minutes, places };
  const { body } = await cast.call('owner', 'POST', '/api/shifts', { id: freshId(), ...shift });
  const url = `/api/shifts/${body.items[0].id}/sign-ups`;
  const taken = await cast.call('owner', 'POST', url, { id: freshId(), personId: PEOPLE.volunteer.id });
  const came = await cast.call('owner', 'PATCH', `${url}/${taken.body.signUps[0].id}`, { attended: true, minutes });
  if (came.status !== 200) throw new Error(`${url}: ${came.text}`);
}

/** Keeps a programme, takes some of it back, and gives what was typed. */
export async function keepProgramme(cast: Cast, programme: number): Promise<Typed[]> {
  const [made] = fc.sample(programmes, { seed: FIRST_SEED + programme, numRuns: 1 });
  const typed: Typed[] = [];
  const keep = async (entry: { bin: string; offset: number; isUndone: boolean }, path: string, body: object) => {
    const day = dayOf(programme, entry.offset);
    const id = await make(cast, path, { binId: entry.bin, happenedAt: `${day}T10:00:00.000Z`, ...body });
    if (entry.isUndone) await cast.call('owner', 'DELETE', `/api/entries/${id}`);
    return { bin: entry.bin, site: BIN_SITES[entry.bin]!, month: day.slice(0, 'yyyy-mm'.length), isUndone: entry.isUndone };
  };
  for (const each of made!.feedings) {
    const items = each.items.map(({ food, grams: g, how }) => ({ materialId: food, massKg: kg(g), how }));
    const where = await keep(each, '/api/feedings', { zone: 1, beddingKg: kg(each.beddingG), items });
    for (const { grams: g, how } of each.items) typed.push({ ...where, kind: how === 'weighed' ? 'weighed' : 'estimated', grams: g });
    typed.push({ ...where, kind: 'bedding', grams: each.beddingG });
  }
  for (const { buckets, volumeMl, squeeze, destination, ...each } of made!.harvests) {
    const where = await keep(each, '/api/harvests', {
      ...{ massKg: kg(sumOf(buckets)), destination },
      buckets: buckets.map((bucket) => ({ grossKg: kg(bucket.grams + bucket.tareG), tareKg: kg(bucket.tareG) })),
      ...(volumeMl === null ? {} : { volumeL: kg(volumeMl) }),
      ...(squeeze === null ? {} : { moisture: { how: 'squeeze', squeeze } }),
    });
    typed.push({ ...where, kind: 'harvested', grams: sumOf(buckets) });
  }
  for (const each of made!.shifts) await holdShift(cast, dayOf(programme, each.offset), each);
  for (const { offset, inG, share } of made!.moves) {
    const move = { siteId: SITES.meadow, on: dayOf(programme, offset) };
    const outG = Math.ceil((inG * share) / 100);
    await make(cast, '/api/castings-moves', { ...move, kind: 'brought-in', massKg: kg(inG) });
    await make(cast, '/api/castings-moves', { ...move, kind: 'given-out', massKg: kg(outG), destination: 'plots' });
  }
  return typed;
}
