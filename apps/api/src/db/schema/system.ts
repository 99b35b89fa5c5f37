import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const appliedClientId = sqliteTable('applied_client_id', {
  clientId: text('client_id').primaryKey(),
  route: text('route').notNull(),
  personId: text('person_id'),
  bodyHash: text('body_hash').notNull(),
  appliedAt: text('applied_at').notNull(),
});

export const audit = sqliteTable('audit', {
  id: integer('id').primaryKey(),
  at: text('at').notNull(),
  personId: text('person_id'),
  action: text('action').notNull(),
  subject: text('subject').notNull().default(''),
  detail: text('detail').notNull().default('{}'),
  requestId: text('request_id').notNull().default(''),
});

export const appliedMigration = sqliteTable('applied_migration', {
  number: integer('number').primaryKey(),
  name: text('name').notNull(),
  sha256: text('sha256').notNull(),
  appliedAt: text('applied_at').notNull(),
});

export const change = sqliteTable('change', {
  id: integer('id').primaryKey(),
  topic: text('topic', { enum: ['entry', 'bin', 'site', 'shift', 'stuff', 'people', 'programme', 'message'] }).notNull(),
  subject: text('subject').notNull(),
});
