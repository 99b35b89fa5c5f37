import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const shiftSeries = sqliteTable('shift_series', {
  id: text('id').primaryKey(),
  siteId: text('site_id').notNull(),
  createdAt: text('created_at').notNull(),
});

export const shift = sqliteTable('shift', {
  id: text('id').primaryKey(),
  seriesId: text('series_id'),
  siteId: text('site_id').notNull(),
  title: text('title').notNull(),
  localDate: text('local_date').notNull(),
  localTime: text('local_time').notNull(),
  timeZone: text('time_zone').notNull(),
  minutes: integer('minutes').notNull(),
  places: integer('places').notNull(),
  note: text('note').notNull().default(''),
  cancelledAt: text('cancelled_at'),
  revision: integer('revision').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const shiftBin = sqliteTable(
  'shift_bin',
  {
    shiftId: text('shift_id').notNull(),
    binId: text('bin_id').notNull(),
  },
  (table) => [primaryKey({ columns: [table.shiftId, table.binId] })],
);

export const shiftDuty = sqliteTable(
  'shift_duty',
  {
    shiftId: text('shift_id').notNull(),
    binId: text('bin_id').notNull(),
    kind: text('kind', { enum: ['feed', 'check', 'loosen', 'water', 'bedding', 'inoculate', 'harvest', 'rest'] }).notNull(),
  },
  (table) => [primaryKey({ columns: [table.shiftId, table.binId, table.kind] })],
);

export const signUp = sqliteTable('sign_up', {
  id: text('id').primaryKey(),
  shiftId: text('shift_id').notNull(),
  personId: text('person_id').notNull(),
  takenAt: text('taken_at').notNull(),
  givenBackAt: text('given_back_at'),
  attended: integer('attended', { mode: 'boolean' }),
  minutes: integer('minutes'),
});
