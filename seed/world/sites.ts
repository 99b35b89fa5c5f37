/** Three invented sites in an invented mild town. */
export interface SiteStory {
  readonly key: SiteKey;
  readonly name: string;
  readonly note: string;
  readonly containers: readonly { readonly key: string; readonly name: string; readonly litres: number; readonly fullKg: number }[];
  /** What its people bring, most usual first. */
  readonly foods: readonly string[];
  readonly bedding: string;
  /** Weekly shifts: weekday 1 = Monday, local time. */
  readonly rounds: readonly {
    readonly title: string;
    readonly weekday: number;
    readonly time: string;
    readonly minutes: number;
    readonly places: number;
  }[];
}
export type SiteKey = 'garden' | 'school' | 'plots';

export const TIME_ZONE = 'Europe/London';
/** A mild coast: monthly mean daily minima and maxima, invented, January first. */
export const MIN_C = [5, 5, 6, 7, 10, 12, 14, 14, 12, 10, 7, 6];
export const MAX_C = [9, 9, 11, 13, 16, 19, 21, 21, 18, 15, 12, 10];

export const SITES: readonly SiteStory[] = [
  {
    key: 'garden',
    name: 'Marlpit Community Garden',
    note: 'Six bins along the south wall and in the potting shed. Key box by the gate.',
    containers: [
      { key: 'caddy', name: 'Green caddy', litres: 7, fullKg: 3 },
      { key: 'bucket', name: 'White bucket', litres: 12, fullKg: 5.1 },
    ],
    foods: ['food_scraps_veg', 'food_scraps_veg', 'coffee_grounds', 'cabbage', 'carrot', 'potato_peel', 'lettuce', 'apple'],
    bedding: 'cardboard_corrugated',
    rounds: [
      { title: 'Saturday round', weekday: 6, time: '10:00', minutes: 90, places: 3 },
      { title: 'Wednesday round', weekday: 3, time: '17:30', minutes: 60, places: 2 },
    ],
  },
  {
    key: 'school',
    name: 'Fernside Primary School',
    note: 'Bins in the corridor, the boiler lobby and the wildlife corner. Pupils come with a grown-up.',
    containers: [{ key: 'tub', name: 'Fruit tub', litres: 5, fullKg: 2.2 }],
    foods: ['fruit_waste_mixed', 'apple', 'banana_peel', 'carrot', 'food_scraps_veg', 'cucumber'],
    bedding: 'newsprint_shredded',
    rounds: [{ title: 'Thursday worm club', weekday: 4, time: '15:15', minutes: 45, places: 3 }],
  },
  {
    key: 'plots',
    name: 'Quarry Field Allotments',
    note: 'Four bins behind the tool store, one on plot 12.',
    containers: [{ key: 'trug', name: 'Grey trug', litres: 15, fullKg: 6.4 }],
    foods: ['food_scraps_veg', 'cabbage', 'beet_greens', 'zucchini', 'tomato', 'potato_peel', 'pumpkin'],
    bedding: 'leaves_dry',
    rounds: [{ title: 'Sunday plots round', weekday: 7, time: '11:00', minutes: 75, places: 2 }],
  },
];
