/** What was weighed out in a season beside what had been expected in the bins beforehand. */

/** A harvest that was weighed, and what stood in its bin on the evening before by the model. */
export interface WeighedHarvest {
  readonly siteId: string;
  readonly binId: string;
  /** Year-month-day. */
  readonly localDate: string;
  readonly grams: number;
  /** Null where the model was not asked in time. */
  readonly expected: ExpectedRange | null;
}

/** Whole grams: less than low and more than high had one chance in ten each. */
export interface ExpectedRange {
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}

export interface ExpectedSum {
  /** How many harvests are counted here. */
  readonly harvests: number;
  readonly weighedG: number;
  readonly expectedG: ExpectedRange;
}

export interface CastingsExpected extends ExpectedSum {
  readonly bySite: readonly (ExpectedSum & { readonly key: string })[];
  /** Weighed harvests of which nothing was expected beforehand; they are in no sum. */
  readonly notExpected: number;
}

/**
 * Sums of what was weighed and of what was expected, harvests without an expectation left out of both.
 *
 * @shape harvests[n] -> sums
 * @returns Whole grams; sites in order of their key; a bin harvested twice on one day was expected once
 * @valid grams are whole and not negative
 * @source none: adding up
 */
export function castingsExpected(harvests: readonly WeighedHarvest[]): CastingsExpected {
  const known = harvests.filter(({ expected }) => expected !== null);
  const sites = [...new Set(known.map(({ siteId }) => siteId))].sort();
  return {
    ...sumOf(known),
    bySite: sites.map((key) => ({ key, ...sumOf(known.filter(({ siteId }) => siteId === key)) })),
    notExpected: harvests.length - known.length,
  };
}

function sumOf(harvests: readonly WeighedHarvest[]): ExpectedSum {
  const byBinAndDay = new Map(harvests.map(({ binId, localDate, expected }) => [`${binId} ${localDate}`, expected as ExpectedRange]));
  const sum = (grams: readonly number[]) => grams.reduce((all, each) => all + each, 0);
  const ranges = [...byBinAndDay.values()];
  const [low, mid, high] = [ranges.map((each) => each.low), ranges.map((each) => each.mid), ranges.map((each) => each.high)].map(sum) as [
    ...[number, number, number],
  ];
  return { harvests: harvests.length, weighedG: sum(harvests.map(({ grams }) => grams)), expectedG: { low, mid, high } };
}
