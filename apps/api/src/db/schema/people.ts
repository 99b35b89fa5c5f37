import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const person = sqliteTable('person', {
  id: text('id').primaryKey(),
  name: text('name'),
  email: text('email'),
  isAdult: integer('is_adult', { mode: 'boolean' }).notNull().default(true),
  owner: integer('owner', { mode: 'boolean' }).notNull().default(false),
  disabled: integer('disabled', { mode: 'boolean' }).notNull().default(false),
  erasedAt: text('erased_at'),
  createdAt: text('created_at').notNull(),
  clearedAt: text('cleared_at'),
});

export const membership = sqliteTable('membership', {
  id: text('id').primaryKey(),
  personId: text('person_id').notNull(),
  siteId: text('site_id'),
  role: text('role', { enum: ['pupil', 'volunteer', 'site-lead', 'coordinator'] }).notNull(),
  createdAt: text('created_at').notNull(),
});

export const credential = sqliteTable('credential', {
  id: text('id').primaryKey(),
  personId: text('person_id').notNull(),
  kind: text('kind', { enum: ['password', 'totp', 'recovery', 'passkey', 'picture'] }).notNull(),
  secret: text('secret').notNull(),
  label: text('label').notNull().default(''),
  usedAt: text('used_at'),
  createdAt: text('created_at').notNull(),
  lastStep: integer('last_step'),
});

export const signInSession = sqliteTable('sign_in_session', {
  id: text('id').primaryKey(),
  tokenHash: text('token_hash').notNull(),
  personId: text('person_id').notNull(),
  kind: text('kind', { enum: ['password', 'device', 'pupil', 'demo'] }).notNull(),
  label: text('label').notNull().default(''),
  createdAt: text('created_at').notNull(),
  lastSeenAt: text('last_seen_at').notNull(),
  expiresAt: text('expires_at').notNull(),
  idleMinutes: integer('idle_minutes'),
  endedAt: text('ended_at'),
});

export const signInTry = sqliteTable('sign_in_try', {
  accountHash: text('account_hash').primaryKey(),
  failures: integer('failures').notNull().default(0),
  lastFailureAt: text('last_failure_at').notNull(),
});
