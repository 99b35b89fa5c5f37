import { type SeasonColumn, sumOf } from './season-row.ts';

export const minutesGiven: SeasonColumn = {
  id: 'minutes',
  unit: 'min',
  meaning: 'Time that people gave.',
  of: (rows) => sumOf(rows, (row) => (row.type === 'attendance' ? row.minutes : 0)),
};
