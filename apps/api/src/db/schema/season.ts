import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const season = sqliteTable('season', {
  id: text('id').primaryKey(),
  siteId: text('site_id'),
  name: text('name').notNull(),
  fromDate: text('from_date').notNull(),
  toDate: text('to_date').notNull(),
  createdAt: text('created_at').notNull(),
  texts: text('texts').notNull().default('{}'),
  revision: integer('revision').notNull().default(1),
});

export const publishedSeason = sqliteTable('published_season', {
  id: text('id').primaryKey(),
  siteId: text('site_id'),
  name: text('name').notNull(),
  fromDate: text('from_date').notNull(),
  toDate: text('to_date').notNull(),
  body: text('body').notNull(),
  publishedAt: text('published_at').notNull(),
  texts: text('texts').notNull().default('{}'),
});

export const climateFactors = sqliteTable('climate_factors', {
  one: integer('one').primaryKey().default(1),
  factors: text('factors').notNull(),
  confirmedAt: text('confirmed_at').notNull(),
});

export const signUpSeason = sqliteTable('sign_up_season', {
  id: text('id').primaryKey(),
  siteId: text('site_id').notNull(),
  name: text('name').notNull(),
  fromDate: text('from_date').notNull(),
  toDate: text('to_date').notNull(),
  way: text('way', { enum: ['first-come', 'draw'] }).notNull(),
  opensAt: text('opens_at').notNull(),
  cap: integer('cap').notNull().default(2),
  seed: text('seed').notNull(),
  drawnAt: text('drawn_at'),
  draw: text('draw'),
  createdAt: text('created_at').notNull(),
});

export const wishList = sqliteTable(
  'wish_list',
  {
    seasonId: text('season_id').notNull(),
    personId: text('person_id').notNull(),
    most: integer('most').notNull(),
    saidAt: text('said_at').notNull(),
  },
  (table) => [primaryKey({ columns: [table.seasonId, table.personId] })],
);

export const wish = sqliteTable(
  'wish',
  {
    seasonId: text('season_id').notNull(),
    personId: text('person_id').notNull(),
    rank: integer('rank').notNull(),
    shiftId: text('shift_id').notNull(),
  },
  (table) => [primaryKey({ columns: [table.seasonId, table.personId, table.rank] })],
);
