import { type SeasonColumn, sumOf } from './season-row.ts';

export const fedWeighed: SeasonColumn = {
  id: 'fedWeighedG',
  unit: 'g',
  meaning: 'Scraps fed that were weighed.',
  of: (rows) => sumOf(rows, (row) => (row.type === 'feeding' && row.how === 'weighed' ? row.grams : 0)),
};
