import { type SeasonColumn, sumOf } from './season-row.ts';

export const beddingGiven: SeasonColumn = {
  id: 'beddingG',
  unit: 'g',
  meaning: 'Bedding given to the bins.',
  of: (rows) => sumOf(rows, (row) => (row.type === 'bedding' ? row.grams : 0)),
};
