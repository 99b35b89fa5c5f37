import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const invite = sqliteTable('invite', {
  id: text('id').primaryKey(),
  tokenHash: text('token_hash').notNull(),
  personId: text('person_id'),
  name: text('name'),
  role: text('role', { enum: ['volunteer', 'site-lead', 'coordinator'] }).notNull(),
  siteIds: text('site_ids').notNull().default('[]'),
  createdBy: text('created_by'),
  createdAt: text('created_at').notNull(),
  expiresAt: text('expires_at').notNull(),
  usedAt: text('used_at'),
  usedBy: text('used_by'),
  revokedAt: text('revoked_at'),
});

export const deviceCode = sqliteTable('device_code', {
  id: text('id').primaryKey(),
  personId: text('person_id').notNull(),
  codeHash: text('code_hash').notNull(),
  createdBy: text('created_by'),
  createdAt: text('created_at').notNull(),
  expiresAt: text('expires_at').notNull(),
  tries: integer('tries').notNull().default(0),
  usedAt: text('used_at'),
  sessionId: text('session_id'),
});

export const pupilClass = sqliteTable('class', {
  id: text('id').primaryKey(),
  siteId: text('site_id').notNull(),
  name: text('name').notNull(),
  code: text('code').notNull(),
  ageBand: text('age_band', { enum: ['4-8', '9-12', '13-18'] }).notNull(),
  archived: integer('archived', { mode: 'boolean' }).notNull().default(false),
  createdAt: text('created_at').notNull(),
});

export const classPupil = sqliteTable('class_pupil', {
  personId: text('person_id').primaryKey(),
  classId: text('class_id').notNull(),
});

export const link = sqliteTable('link', {
  id: text('id').primaryKey(),
  kind: text('kind', { enum: ['board', 'calendar', 'season'] }).notNull(),
  tokenHash: text('token_hash').notNull(),
  personId: text('person_id'),
  siteId: text('site_id'),
  label: text('label').notNull().default(''),
  createdBy: text('created_by'),
  createdAt: text('created_at').notNull(),
  revokedAt: text('revoked_at'),
});
