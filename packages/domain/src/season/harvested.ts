import { type SeasonColumn, sumOf } from './season-row.ts';

export const harvested: SeasonColumn = {
  id: 'harvestedG',
  unit: 'g',
  meaning: 'Castings weighed out.',
  of: (rows) => sumOf(rows, (row) => (row.type === 'harvest' ? row.grams : 0)),
};
