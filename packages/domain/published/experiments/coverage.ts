import { runBin } from '../../src/index.ts';
import { type Dish, fitQuality, scenarioOf } from './dish.ts';
import { W01_DISH, W03_DISH } from './growth-density.ts';
import { W07_DISH } from './growth-moisture.ts';
import { W04_DISH, W06_DISH } from './growth-temperature.ts';
import { W12_DISH } from './one-batch.ts';
import { readSeries, type Series } from './series.ts';

/** A series that was not fitted, its dish, and the series of the study that was. */
interface Predicted {
  readonly study: string;
  readonly file: string;
  readonly fitted: string;
  readonly dish: Dish;
  readonly series: readonly (readonly [string, Partial<Dish>])[];
}

const worms = (juveniles: number, meanMassMg: number, dish: Dish): Partial<Dish> => ({ worms: { ...dish.worms, juveniles, meanMassMg } });

const PREDICTED: readonly Predicted[] = [
  {
    study: 'W01',
    file: 'W01_dominguez_edwards_1997_density.csv',
    fitted: 'gr0114',
    dish: W01_DISH,
    series: [
      ['gr0115', worms(2, 90, W01_DISH)],
      ['gr0116', worms(4, 104, W01_DISH)],
      ['gr0117', worms(8, 98, W01_DISH)],
      ['gr0118', worms(16, 57, W01_DISH)],
    ],
  },
  {
    study: 'W03',
    file: 'W03_neuhauser_1980_food_density.csv',
    fitted: 'gr0227',
    dish: W03_DISH,
    series: [
      ['gr0228', worms(4, 8, W03_DISH)],
      ['gr0229', worms(8, 8, W03_DISH)],
      ['gr0230', worms(12, 8, W03_DISH)],
      ['gr0231', worms(16, 8, W03_DISH)],
    ],
  },
  {
    study: 'W04',
    file: 'W04_edwards_1988_temperature.csv',
    fitted: 'gr1473',
    dish: W04_DISH,
    series: [
      ['gr1470', { tempC: 10 }],
      ['gr1471', { tempC: 15 }],
      ['gr1472', { tempC: 20 }],
    ],
  },
  {
    study: 'W06',
    file: 'W06_tripathi_bhardwaj_2004_temperature.csv',
    fitted: 'gr0405',
    dish: W06_DISH,
    series: [
      ['gr0404', { tempC: 20 }],
      ['gr0406', { tempC: 30 }],
    ],
  },
  {
    study: 'W07',
    file: 'W07_reinecke_venter_1985_moisture.csv',
    fitted: 'gr0835',
    dish: W07_DISH,
    series: [
      ['gr0839', { moistureFracWb: 0.735 }],
      ['gr0840', {}],
      ['gr0841', { moistureFracWb: 0.655 }],
      ['gr0842', { moistureFracWb: 0.61 }],
    ],
  },
  {
    study: 'W12',
    file: 'W12_gunadi_2002_single_feed_growth_decline.csv',
    fitted: 'gr0186',
    dish: W12_DISH,
    series: (['gr0187', 'gr0188', 'gr0189', 'gr0190', 'gr0191'] as const).map(
      (curve, i) => [curve, { preCompostedDays: 7 * (i + 1) }] as const,
    ),
  },
];

export interface Coverage {
  readonly study: string;
  readonly rows: number;
  readonly inside: number;
}

const FROM_DAY = 10;
const MEMBERS = 64;

/** How often a measured mean mass of a series that nothing was fitted on lies between the members' 10th and 90th percentile. */
export function coverage(): readonly Coverage[] {
  return PREDICTED.map(({ study, file, fitted, dish, series }) => {
    const all = readSeries(file);
    const quality = fitQuality(dish, all.get(fitted)!.points);
    let rows = 0;
    let inside = 0;
    for (const [curve, change] of series) {
      const points = pointsOf(all.get(curve)!);
      const days = Math.max(...points.map(([day]) => day));
      const run = runBin({ ...scenarioOf({ ...dish, ...change, days }, quality), members: MEMBERS });
      for (const [day, mass] of points) {
        const { p10, p90 } = run.rows[Math.round(day) - 1]!.meanMassMg;
        rows++;
        if (mass >= p10 && mass <= p90) inside++;
      }
    }
    return { study, rows, inside };
  });
}

const pointsOf = ({ points }: Series): readonly (readonly [number, number])[] => points.filter(([day]) => day >= FROM_DAY);
