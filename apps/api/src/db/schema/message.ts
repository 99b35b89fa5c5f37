import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const message = sqliteTable('message', {
  id: text('id').primaryKey(),
  personId: text('person_id').notNull(),
  kind: text('kind').notNull(),
  shiftId: text('shift_id'),
  occasion: text('occasion').notNull().default(''),
  facts: text('facts').notNull().default('{}'),
  urgent: integer('urgent').notNull().default(0),
  madeAt: text('made_at').notNull(),
  goodUntil: text('good_until'),
  readAt: text('read_at'),
  overAt: text('over_at'),
});

export const messageSetting = sqliteTable('message_setting', {
  personId: text('person_id').primaryKey(),
  remindDay: integer('remind_day').notNull().default(1),
  remindHours: integer('remind_hours').notNull().default(1),
  digest: integer('digest').notNull().default(1),
  quietFrom: text('quiet_from').notNull().default('21:00'),
  quietTo: text('quiet_to').notNull().default('07:00'),
  mail: integer('mail').notNull().default(0),
  address: text('address'),
  confirmedAt: text('confirmed_at'),
  codeHash: text('code_hash'),
  codeUntil: text('code_until'),
  codeTries: integer('code_tries').notNull().default(0),
  language: text('language'),
});

export const mail = sqliteTable('mail', {
  id: text('id').primaryKey(),
  kind: text('kind', { enum: ['message', 'code', 'test'] }).notNull(),
  personId: text('person_id').notNull(),
  messageId: text('message_id'),
  address: text('address').notNull(),
  urgent: integer('urgent').notNull().default(0),
  state: text('state', { enum: ['waiting', 'sending', 'handed-over', 'failed', 'dropped'] })
    .notNull()
    .default('waiting'),
  tries: integer('tries').notNull().default(0),
  madeAt: text('made_at').notNull(),
  nextTryAt: text('next_try_at').notNull(),
  goodUntil: text('good_until').notNull(),
  doneAt: text('done_at'),
  lastError: text('last_error').notNull().default(''),
  replyHash: text('reply_hash'),
  secret: text('secret'),
});

export const calendarStamp = sqliteTable('calendar_stamp', {
  subject: text('subject').primaryKey(),
  contentHash: text('content_hash').notNull(),
  sequence: integer('sequence').notNull(),
  changedAt: text('changed_at').notNull(),
});
