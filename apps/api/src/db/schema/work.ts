import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';

const DUTIES = ['feed', 'check', 'loosen', 'water', 'bedding', 'inoculate', 'harvest', 'rest'] as const;

export const siteOpening = sqliteTable(
  'site_opening',
  {
    siteId: text('site_id').notNull(),
    weekday: integer('weekday').notNull(),
    fromTime: text('from_time').notNull(),
    toTime: text('to_time').notNull(),
  },
  (table) => [primaryKey({ columns: [table.siteId, table.weekday] })],
);

export const siteClosed = sqliteTable(
  'site_closed',
  {
    siteId: text('site_id').notNull(),
    fromDate: text('from_date').notNull(),
    toDate: text('to_date').notNull(),
    label: text('label').notNull().default(''),
  },
  (table) => [primaryKey({ columns: [table.siteId, table.fromDate, table.toDate] })],
);

export const siteDutyMinutes = sqliteTable(
  'site_duty_minutes',
  {
    siteId: text('site_id').notNull(),
    kind: text('kind', { enum: DUTIES }).notNull(),
    minutes: integer('minutes').notNull(),
  },
  (table) => [primaryKey({ columns: [table.siteId, table.kind] })],
);

export const shiftDutyResult = sqliteTable(
  'shift_duty_result',
  {
    shiftId: text('shift_id').notNull(),
    binId: text('bin_id').notNull(),
    kind: text('kind', { enum: DUTIES }).notNull(),
    result: text('result', { enum: ['done', 'partly', 'missed'] }).notNull(),
    note: text('note').notNull().default(''),
    personId: text('person_id'),
    saidAt: text('said_at').notNull(),
  },
  (table) => [primaryKey({ columns: [table.shiftId, table.binId, table.kind] })],
);

export const droppedDuty = sqliteTable(
  'dropped_duty',
  {
    binId: text('bin_id').notNull(),
    kind: text('kind', { enum: DUTIES }).notNull(),
    dueOn: text('due_on').notNull(),
    urgency: integer('urgency').notNull(),
    personId: text('person_id'),
    droppedAt: text('dropped_at').notNull(),
  },
  (table) => [primaryKey({ columns: [table.binId, table.kind] })],
);
