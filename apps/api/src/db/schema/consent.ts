import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const consent = sqliteTable('consent', {
  id: text('id').primaryKey(),
  personId: text('person_id').notNull(),
  givenBy: text('given_by', { enum: ['self', 'guardian', 'school'] }).notNull(),
  purpose: text('purpose', { enum: ['photo', 'report'] }).notNull(),
  wording: integer('wording').notNull(),
  givenAt: text('given_at').notNull(),
  enteredBy: text('entered_by').notNull(),
  withdrawnAt: text('withdrawn_at'),
  withdrawnBy: text('withdrawn_by'),
});

export const photoPerson = sqliteTable(
  'photo_person',
  { photoId: text('photo_id').notNull(), personId: text('person_id').notNull() },
  (t) => [primaryKey({ columns: [t.photoId, t.personId] })],
);

export const seasonPhoto = sqliteTable(
  'season_photo',
  {
    seasonId: text('season_id').notNull(),
    seq: integer('seq').notNull(),
    photoId: text('photo_id').notNull(),
    alt: text('alt').notNull(),
  },
  (t) => [primaryKey({ columns: [t.seasonId, t.seq] })],
);

export const publishedSeasonPhoto = sqliteTable(
  'published_season_photo',
  {
    publishedSeasonId: text('published_season_id').notNull(),
    seq: integer('seq').notNull(),
    photoId: text('photo_id'),
    alt: text('alt').notNull(),
  },
  (t) => [primaryKey({ columns: [t.publishedSeasonId, t.seq] })],
);

export const photoGone = sqliteTable('photo_gone', {
  id: text('id').primaryKey(),
  goneOn: text('gone_on').notNull(),
});
