import { type Study, Table } from './comparison.ts';
import { type Dish, fitQuality, massOn, maxOf, runDish } from './dish.ts';
import { HORSE_MANURE, PIG_MANURE, SEWAGE_SLUDGE } from './feeds.ts';
import { massAt, maxMass, readSeries } from './series.ts';

/** Slope of log mass over log worms, least squares. */
export function logSlope(points: readonly (readonly [number, number])[]): number {
  const xs = points.map(([n]) => Math.log(n));
  const ys = points.map(([, mass]) => Math.log(mass));
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [mx, my] = [mean(xs), mean(ys)];
  return xs.reduce((sum, x, i) => sum + (x - mx) * (ys[i]! - my), 0) / xs.reduce((sum, x) => sum + (x - mx) ** 2, 0);
}

export const W01_DISH: Dish = {
  areaM2: 0.0045,
  tempC: 20,
  moistureFracWb: 0.8,
  worms: { juveniles: 1, meanMassMg: 90, species: 'eisenia-andrei' },
  days: 48,
  feed: PIG_MANURE,
  feedKgWb: 0.15,
};

export const w01: Study = {
  id: 'W01',
  grade: 'A',
  citation: 'Dominguez, Edwards 1997, Soil Biol. Biochem. 29:743-746 (growth against density, pig manure)',
  fittedOn: 'one worm alone',
  run: () => {
    const series = readSeries('W01_dominguez_edwards_1997_density.csv');
    const alone = series.get('gr0114')!;
    const qualityRatio = fitQuality(W01_DISH, alone.points);
    const table = new Table('W01', 'A');
    const slopePoints: [number, number][] = [[1, maxOf(runDish(W01_DISH, qualityRatio))]];
    const published: [number, number][] = [[1, maxMass(alone)]];
    for (const [curve, worms] of [
      ['gr0115', 2],
      ['gr0116', 4],
      ['gr0117', 8],
      ['gr0118', 16],
    ] as const) {
      const points = series.get(curve)!;
      const rows = runDish({ ...W01_DISH, worms: { ...W01_DISH.worms, juveniles: worms, meanMassMg: points.points[0]![1] } }, qualityRatio);
      table.share(`largest mean mass, ${worms} worms [mg]`, 0.2, { published: maxMass(points), ours: maxOf(rows) });
      table.share(`mean mass on day 24, ${worms} worms [mg]`, 0.25, {
        published: massAt(points, 24),
        ours: massOn(rows, 24),
        note: 'worms slowed before the food can have run short; the model sets no pause before maturity',
      });
      slopePoints.push([worms, maxOf(rows)]);
      published.push([worms, maxMass(points)]);
    }
    table.difference('slope of log mass on log worms', 0.1, { published: logSlope(published), ours: logSlope(slopePoints) });
    return { qualityRatio, rows: table.rows };
  },
};

export const W03_DISH: Dish = {
  areaM2: 0.0078,
  tempC: 25,
  moistureFracWb: 0.75,
  worms: { juveniles: 3, meanMassMg: 8 },
  days: 231,
  feed: HORSE_MANURE,
  feedKgWb: 0.25,
};

export const w03: Study = {
  id: 'W03',
  grade: 'A',
  citation: 'Neuhauser, Hartenstein, Kaplan 1980, Oikos 35:93-98 (growth against density, horse manure and sludge)',
  fittedOn: 'three worms on horse manure',
  run: () => {
    const series = readSeries('W03_neuhauser_1980_food_density.csv');
    const three = series.get('gr0227')!;
    const qualityRatio = fitQuality(W03_DISH, three.points);
    const table = new Table('W03', 'A');
    const ours: [number, number][] = [[3, maxOf(runDish(W03_DISH, qualityRatio))]];
    const published: [number, number][] = [[3, maxMass(three)]];
    for (const [curve, worms] of [
      ['gr0228', 4],
      ['gr0229', 8],
      ['gr0230', 12],
      ['gr0231', 16],
    ] as const) {
      const rows = runDish({ ...W03_DISH, worms: { juveniles: worms, meanMassMg: 8 } }, qualityRatio);
      const points = series.get(curve)!;
      table.share(`largest mean mass, ${worms} worms on horse manure [mg]`, 0.2, {
        published: maxMass(points),
        ours: maxOf(rows),
        note: 'the published order is uneven: eight worms grew as heavy as four',
      });
      ours.push([worms, maxOf(rows)]);
      published.push([worms, maxMass(points)]);
      const fall = 1 - massOn(rows, 200) / massOn(rows, 148);
      table.range(`fall of mass from day 148 to 200, ${worms} worms on horse manure`, 0.04, 0.32, {
        published: 1 - massAt(points, 200) / massAt(points, 148),
        ours: fall,
      });
    }
    table.difference('slope of log mass on log worms, horse manure', 0.1, { published: logSlope(published), ours: logSlope(ours) });
    table.factor('standing mass at its most, 16 worms on horse manure [g]', 1.5, { published: 6.5, ours: (16 * ours.at(-1)![1]) / 1000 });
    sludgeRows(table, qualityRatio);
    const alone = maxOf(runDish({ ...W03_DISH, worms: { juveniles: 1, meanMassMg: 8 }, days: 250 }, qualityRatio));
    table.share('largest mass, one worm on horse manure [mg]', 0.25, {
      published: 1947,
      ours: alone,
      note: 'a single worm grew to twice the mass that any group of the same study allows for; our full mass is for groups',
    });
    return { qualityRatio, rows: table.rows };
  },
};

function sludgeRows(table: Table, qualityRatio: number): void {
  const ours = [3, 4, 12, 16].map((worms): [number, number] => [
    worms,
    maxOf(runDish({ ...W03_DISH, feed: SEWAGE_SLUDGE, worms: { juveniles: worms, meanMassMg: 8 } }, qualityRatio)),
  ]);
  table.difference('slope of log mass on log worms, activated sludge', 0.05, {
    published: logSlope([
      [3, 2074],
      [4, 1985],
      [12, 2095],
      [16, 1916],
    ]),
    ours: logSlope(ours),
    note: 'sludge is living microbes through and through; the model feeds worms on what rots a day, so a crowd shares less',
  });
}
