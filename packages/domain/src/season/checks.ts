import { entriesOf, type SeasonColumn } from './season-row.ts';

export const checks: SeasonColumn = {
  id: 'checks',
  unit: 'count',
  meaning: 'Number of checks written down.',
  of: (rows) => entriesOf(rows, 'check'),
};
