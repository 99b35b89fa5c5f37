/** What really happened in an invented garden, and the garden itself: every file of the corpus tells of these. */
import { type ImportBin, type ImportKnown, plainText } from '@middenry/domain';

export const BINS: readonly (ImportBin & { readonly code: string; readonly name: string })[] = [
  { id: 'bin-a', code: 'A1', name: 'Tote by the gate', startedOn: '2024-01-10', zones: 2, isRetired: false },
  { id: 'bin-b', code: 'B2', name: 'Long bed', startedOn: '2024-01-10', zones: 4, isRetired: false },
];

const names = (pairs: Readonly<Record<string, string>>) => new Map(Object.entries(pairs).map(([name, id]) => [plainText(name), id]));

export const KNOWN: ImportKnown = {
  today: '2026-11-25',
  bins: new Map(BINS.map((bin) => [bin.id, bin])),
  names: {
    bin: names(
      Object.fromEntries(
        BINS.flatMap(({ id, code, name }) => [
          [code, id],
          [name, id],
        ]),
      ),
    ),
    material: names({
      Apples: 'apple',
      Coffee: 'coffee_grounds',
      'Kitchen scraps': 'food_scraps_veg',
      Café: 'coffee_grounds',
      Manzanas: 'apple',
      Restos: 'food_scraps_veg',
    }),
    person: names({ 'Otis Barrow': 'otis', 'Maren Quill': 'maren', 'José Peña': 'jose' }),
    site: names({ 'Long Meadow': 'meadow', 'Hilltop School': 'school' }),
  },
};

export interface FedTruth {
  readonly day: string;
  readonly bin: 0 | 1;
  readonly material: 'apple' | 'coffee_grounds' | 'food_scraps_veg';
  readonly grams: number;
  readonly person: 'otis' | 'maren' | 'jose' | null;
  readonly note: string;
}

/** Days on both sides of the twelfth, so that their order can be told; weights that are whole in pounds and in kilograms are not wanted. */
export const FED: readonly FedTruth[] = [
  { day: '2026-03-05', bin: 0, material: 'food_scraps_veg', grams: 1500, person: 'otis', note: '' },
  { day: '2026-03-17', bin: 1, material: 'coffee_grounds', grams: 900, person: 'jose', note: 'after the market, two bags' },
  { day: '2026-04-02', bin: 0, material: 'apple', grams: 2250, person: null, note: 'said "soft"' },
  { day: '2026-04-30', bin: 1, material: 'food_scraps_veg', grams: 12_500, person: 'maren', note: '' },
  { day: '2026-07-08', bin: 0, material: 'coffee_grounds', grams: 350, person: 'otis', note: 'line one\nline two' },
  { day: '2026-12-31', bin: 0, material: 'apple', grams: 400, person: null, note: 'written a year too late' },
  { day: '2026-10-11', bin: 1, material: 'apple', grams: 1250, person: 'jose', note: '=1+1' },
];

/** The row that lies ahead of today. */
export const AHEAD = 5;
