/** Castings that came into a store or went out of it, in whole grams and on a local date. */
export interface CastingsFlow {
  /** Year-month-day; of castings that cure, the day on which they are ready. */
  readonly on: string;
  /** More than 0 for what came in, less for what went out. */
  readonly grams: number;
}

export interface CastingsStock {
  /** To be given out today. */
  readonly readyG: number;
  /** In store, and ready on a day to come. */
  readonly curingG: number;
}

/** A day on which more had gone out than had come in, and how much of it is short at the worst. */
export interface CastingsShort {
  /** The first such day. */
  readonly on: string;
  readonly shortG: number;
}

/**
 * What lies in store on a day.
 *
 * @shape flows, date -> stock
 * @returns Masses, [g]; what goes out on a day to come is not taken off yet
 * @valid flows that `castingsShort` finds nothing wrong with
 * @source none: adding up
 */
export function castingsStock(flows: readonly CastingsFlow[], today: string): CastingsStock {
  let readyG = 0;
  let curingG = 0;
  for (const { on, grams } of flows) {
    if (on <= today) readyG += grams;
    else if (grams > 0) curingG += grams;
  }
  return { readyG, curingG };
}

/**
 * Whether a store was ever asked for more than was ready in it, day by day; on one day what comes in counts before what goes out.
 *
 * @shape flows -> short or null
 * @returns null when there was always enough
 * @source none: adding up
 */
export function castingsShort(flows: readonly CastingsFlow[]): CastingsShort | null {
  const byDay = new Map<string, number>();
  for (const { on, grams } of flows) byDay.set(on, (byDay.get(on) ?? 0) + grams);
  let storeG = 0;
  const short = [...byDay]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([on, grams]) => {
      storeG += grams;
      return storeG < 0 ? [{ on, shortG: -storeG }] : [];
    });
  const [first] = short;
  return first === undefined ? null : { on: first.on, shortG: Math.max(...short.map(({ shortG }) => shortG)) };
}
