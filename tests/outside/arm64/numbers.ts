/** How far two results of the model are apart: two kinds of processor round some functions differently in the last place. */

/** A bin of 64 members through 120 days with one event of most kinds. */
export const SCENARIO = {
  schema: 'middenry-scenario/1',
  days: 120,
  members: 64,
  seed: 7,
  bin: {
    ...{ kind: 'tote', areaM2: 0.2, depthM: 0.35, zones: 4, openBase: false, ageDays: 0, worms: { massKg: 0.5 } },
    ...{ bed: [{ material: 'cardboard_corrugated', massKg: 2 }], bedWaterKg: 4 },
  },
  climate: { tempC: 20 },
  events: [
    { day: 0, type: 'feeding', zone: 1, items: [{ material: 'lettuce', massKg: 1.2, how: 'weighed' }] },
    { day: 7, type: 'check', leftover: { '1': 'little' }, squeeze: 'one-two-drops', smell: 'earthy', tempC: 21, worms: 'many', ph: 6.9 },
    { day: 9, type: 'water', massKg: 1 },
    { day: 60, type: 'harvest', massKg: 0.5 },
  ],
} as const;

export interface Apart {
  readonly numbers: number;
  readonly unlike: number;
  /** The largest difference, as a part of the number itself. */
  readonly farthest: number;
}

/** @throws {Error} where the two differ in anything but a number */
export function farthestApart(one: unknown, other: unknown): Apart {
  const found = { numbers: 0, unlike: 0, farthest: 0 };
  const walk = (a: unknown, b: unknown, path: string): void => {
    if (typeof a === 'number' && typeof b === 'number') {
      found.numbers += 1;
      if (a === b) return;
      found.unlike += 1;
      found.farthest = Math.max(found.farthest, Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b)));
      return;
    }
    if (a === null || b === null || typeof a !== 'object' || typeof b !== 'object') {
      if (a !== b) throw new Error(`${path}: ${String(a)} here, ${String(b)} there`);
      return;
    }
    const names = Object.keys(a);
    if (names.join() !== Object.keys(b).join()) throw new Error(`${path}: ${names} here, ${Object.keys(b)} there`);
    for (const name of names) walk((a as Record<string, unknown>)[name], (b as Record<string, unknown>)[name], `${path}/${name}`);
  };
  walk(one, other, '');
  return found;
}
