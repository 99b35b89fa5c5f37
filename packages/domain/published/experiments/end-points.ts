import { type BinEvent, type MaterialId, runBin, type Scenario } from '../../src/index.ts';
import { type Study, Table } from './comparison.ts';

function heap(
  worms: number,
  days: number,
  tempC: number,
  items: readonly (readonly [MaterialId, number])[],
  events: readonly BinEvent[] = [],
): Scenario {
  return {
    schema: 'middenry-scenario/1',
    days,
    members: 1,
    seed: 1,
    bin: {
      kind: 'vessel',
      areaM2: 0.05,
      depthM: 0.3,
      zones: 1,
      openBase: true,
      ageDays: 60,
      worms: { massKg: worms, cocoonsRemoved: true },
      bed: [],
      bedWaterKg: 0,
    },
    climate: { bedTempC: tempC, moistureFracWb: 0.75 },
    events: [{ day: 0, type: 'feeding', zone: 1, items: items.map(([material, massKg]) => ({ material, massKg })) }, ...events],
  };
}

const solidsLeft = (scenario: Scenario, inKg: number): number => runBin(scenario).rows.at(-1)!.solidsKgDb.p50 / inKg;

/** Range checks only: end points from abstracts, with set-ups that leave much open (grade C). */
export const endPoints: Study = {
  id: 'E',
  grade: 'C',
  citation:
    'End points from abstracts: E06 Rev. Ambient. Agua 2017; E07 Eklind, Kirchmann 2000; E14 Hartenstein 1981, Neuhauser 1988; E29 pulse-fed reactor preprint; E12 Yadav 2010',
  fittedOn: 'nothing',
  run: () => {
    const table = new Table('E', 'C');
    // 2 kg of scraps and 0.3 kg of chips: 0.26 and 0.21 kg dry.
    const e06 = heap(0, 60, 35, [
      ['food_scraps_veg', 2],
      ['wood_chips', 0.3],
    ]);
    const inKg = runBin({ ...e06, days: 0 }).rows[0]!.solidsKgDb.p50;
    table.range('E06 dry mass lost in 60 days at 35 C without worms', 0.37, 0.61, { published: 0.49, ours: 1 - solidsLeft(e06, inKg) });
    const e07 = heap(0, 590, 15, [['food_scraps_veg', 2]]);
    table.range('E07 dry mass left of household waste after 590 days', 0.22, 0.63, {
      published: 0.35,
      ours: solidsLeft(e07, runBin({ ...e07, days: 0 }).rows[0]!.solidsKgDb.p50),
      note: 'the slow pool of scraps has no part that stays for good in the model',
    });
    const e29 = heap(0.1, 100, 25, [['manure_cow', 1]]);
    table.range('E29 carbon of dung to CO2 with worms in 100 days', 0.4, 0.6, {
      published: 0.5,
      ours: 1 - runBin(e29).rows.at(-1)!.carbonKg.p50 / runBin({ ...e29, days: 0 }).rows[0]!.carbonKg.p50,
    });
    const feed = (day: number): BinEvent => ({
      day,
      type: 'feeding',
      zone: 1,
      items: [{ material: 'food_scraps_veg', massKg: 0.25 }],
      beddingKg: 0.03,
    });
    const fed = runBin({ ...heap(0.25, 180, 20, [['food_scraps_veg', 0.25]]), events: Array.from({ length: 26 }, (_, i) => feed(i * 7)) });
    const inAll = 26 * (0.25 * 0.13 + 0.03 * 0.92);
    table.range('vermicomposting: share of solids lost, 26 weeks of feeding with a tenth of card', 0.35, 0.65, {
      published: 0.5,
      ours: 1 - fed.rows.at(-1)!.solidsKgDb.p50 / inAll,
    });
    table.range('wet castings per kg of food and bedding', 0.25, 0.6, {
      published: 0.4,
      ours: fed.rows.at(-1)!.castingsKgWb.p50 / (26 * 0.28),
      note: 'what is still bedding or food on the last day is not counted as castings',
    });
    return { qualityRatio: null, rows: table.rows };
  },
};
