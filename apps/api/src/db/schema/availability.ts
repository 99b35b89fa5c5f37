import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';

const SKILLS = ['lifting', 'harvest', 'keys', 'guiding'] as const;

export const personTime = sqliteTable(
  'person_time',
  {
    personId: text('person_id').notNull(),
    weekday: integer('weekday').notNull(),
    fromTime: text('from_time').notNull(),
    toTime: text('to_time').notNull(),
    liking: text('liking', { enum: ['glad', 'can', 'if-needed'] }).notNull(),
  },
  (table) => [primaryKey({ columns: [table.personId, table.weekday, table.fromTime] })],
);

export const personAway = sqliteTable(
  'person_away',
  {
    personId: text('person_id').notNull(),
    fromDate: text('from_date').notNull(),
    toDate: text('to_date').notNull(),
  },
  (table) => [primaryKey({ columns: [table.personId, table.fromDate, table.toDate] })],
);

export const personSkill = sqliteTable(
  'person_skill',
  {
    personId: text('person_id').notNull(),
    skill: text('skill', { enum: SKILLS }).notNull(),
  },
  (table) => [primaryKey({ columns: [table.personId, table.skill] })],
);

export const personSiteWish = sqliteTable(
  'person_site_wish',
  {
    personId: text('person_id').notNull(),
    siteId: text('site_id').notNull(),
  },
  (table) => [primaryKey({ columns: [table.personId, table.siteId] })],
);

export const personWish = sqliteTable('person_wish', {
  personId: text('person_id').primaryKey(),
  wishCount: integer('wish_count'),
  wishPer: text('wish_per', { enum: ['week', 'month'] })
    .notNull()
    .default('month'),
  capPerWeek: integer('cap_per_week'),
  capPerDay: integer('cap_per_day'),
  saidAt: text('said_at').notNull(),
});

export const shiftNeed = sqliteTable(
  'shift_need',
  {
    shiftId: text('shift_id').notNull(),
    skill: text('skill', { enum: SKILLS }).notNull(),
    places: integer('places').notNull(),
  },
  (table) => [primaryKey({ columns: [table.shiftId, table.skill] })],
);
