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
  pupilPlaces: integer('pupil_places').notNull().default(0),
  leastAdults: integer('least_adults').notNull().default(2),
  leastAdultsReason: text('least_adults_reason').notNull().default(''),
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

export const shiftGroup = sqliteTable('shift_group', {
  id: text('id').primaryKey(),
  shiftId: text('shift_id').notNull(),
  classId: text('class_id').notNull(),
  pupils: integer('pupils').notNull(),
  madeBy: text('made_by'),
  madeAt: text('made_at').notNull(),
  checkedInAt: text('checked_in_at'),
  endedAt: text('ended_at'),
});

export const shiftGroupPupil = sqliteTable(
  'shift_group_pupil',
  {
    groupId: text('group_id').notNull(),
    personId: text('person_id').notNull(),
  },
  (table) => [primaryKey({ columns: [table.groupId, table.personId] })],
);

export const swap = sqliteTable('swap', {
  id: text('id').primaryKey(),
  signUpId: text('sign_up_id').notNull(),
  shiftId: text('shift_id').notNull(),
  fromPersonId: text('from_person_id').notNull(),
  toPersonId: text('to_person_id'),
  inReturn: text('in_return').notNull().default('[]'),
  madeAt: text('made_at').notNull(),
  endedAt: text('ended_at'),
  endedHow: text('ended_how', { enum: ['accepted', 'withdrawn', 'declined', 'gone'] }),
  acceptedBy: text('accepted_by'),
});
