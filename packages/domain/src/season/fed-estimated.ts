import { type SeasonColumn, sumOf } from './season-row.ts';

export const fedEstimated: SeasonColumn = {
  id: 'fedEstimatedG',
  unit: 'g',
  meaning: 'Scraps fed by container or by guess.',
  of: (rows) => sumOf(rows, (row) => (row.type === 'feeding' && row.how !== 'weighed' ? row.grams : 0)),
};
