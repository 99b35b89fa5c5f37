import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const waiting = sqliteTable('waiting', {
  seq: integer('seq').primaryKey({ autoIncrement: true }),
  id: text('id').notNull(),
  shiftId: text('shift_id').notNull(),
  personId: text('person_id').notNull(),
  joinedAt: text('joined_at').notNull(),
  offeredAt: text('offered_at'),
  offerUntil: text('offer_until'),
  endedAt: text('ended_at'),
  endedHow: text('ended_how', { enum: ['took', 'left', 'lapsed', 'shift'] }),
});
