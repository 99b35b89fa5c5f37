import { entriesOf, type SeasonColumn } from './season-row.ts';

export const feedings: SeasonColumn = {
  id: 'feedings',
  unit: 'count',
  meaning: 'Number of feedings written down.',
  of: (rows) => entriesOf(rows, 'feeding'),
};
