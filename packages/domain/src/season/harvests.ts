import { entriesOf, type SeasonColumn } from './season-row.ts';

export const harvests: SeasonColumn = {
  id: 'harvests',
  unit: 'count',
  meaning: 'Number of harvests written down.',
  of: (rows) => entriesOf(rows, 'harvest'),
};
