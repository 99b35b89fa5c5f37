import { sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const flagNote = sqliteTable('flag_note', {
  id: text('id').primaryKey(),
  binId: text('bin_id').notNull(),
  signal: text('signal').notNull(),
  kind: text('kind', { enum: ['seen', 'aside'] }).notNull(),
  band: text('band', { enum: ['unknown', 'watch', 'act'] }).notNull(),
  reason: text('reason').notNull().default(''),
  untilOn: text('until_on'),
  madeOn: text('made_on').notNull(),
  madeAt: text('made_at').notNull(),
  personId: text('person_id').notNull(),
  endedAt: text('ended_at'),
});
