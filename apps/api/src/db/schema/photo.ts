import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const photo = sqliteTable('photo', {
  id: text('id').primaryKey(),
  binId: text('bin_id').notNull(),
  entryId: text('entry_id'),
  personId: text('person_id').notNull(),
  kind: text('kind', { enum: ['bin', 'visitor'] }).notNull(),
  alt: text('alt').notNull().default(''),
  takenAt: text('taken_at').notNull(),
  receivedAt: text('received_at').notNull(),
  file: text('file').notNull(),
  bytes: integer('bytes').notNull(),
  width: integer('width').notNull(),
  height: integer('height').notNull(),
  sha256: text('sha256').notNull(),
  people: text('people', { enum: ['none', 'some'] })
    .notNull()
    .default('none'),
  peopleAt: text('people_at'),
});
