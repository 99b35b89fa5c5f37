import { entriesOf, type SeasonColumn, sumOf } from './season-row.ts';

export const shiftsPlanned: SeasonColumn = {
  id: 'shifts',
  unit: 'count',
  meaning: 'Number of shifts planned and not called off.',
  of: (rows) => entriesOf(rows, 'shift'),
};

export const placesPlanned: SeasonColumn = {
  id: 'places',
  unit: 'count',
  meaning: 'Places on those shifts.',
  of: (rows) => sumOf(rows, (row) => (row.type === 'shift' ? (row.places ?? 0) : 0)),
};

export const placesTaken: SeasonColumn = {
  id: 'placesTaken',
  unit: 'count',
  meaning: 'Places that somebody took and did not give back.',
  of: (rows) => sumOf(rows, (row) => (row.type === 'shift' ? (row.placesTaken ?? 0) : 0)),
};

export const placesCame: SeasonColumn = {
  id: 'placesCame',
  unit: 'count',
  meaning: 'Places whose holder came.',
  of: (rows) => entriesOf(rows, 'attendance'),
};

export const minutesPlanned: SeasonColumn = {
  id: 'minutesPlanned',
  unit: 'min',
  meaning: 'Time that all places would give: places times the length of their shift.',
  of: (rows) => sumOf(rows, (row) => (row.type === 'shift' ? row.minutes * (row.places ?? 0) : 0)),
};
