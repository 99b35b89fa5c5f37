import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const rotaRun = sqliteTable('rota_run', {
  id: text('id').primaryKey(),
  madeBy: text('made_by'),
  madeAt: text('made_at').notNull(),
  fromDate: text('from_date').notNull(),
  toDate: text('to_date').notNull(),
  siteIds: text('site_ids').notNull().default('[]'),
  seconds: integer('seconds').notNull(),
  status: text('status', { enum: ['working', 'optimal', 'best-found', 'infeasible', 'stopped'] })
    .notNull()
    .default('working'),
  endedAt: text('ended_at'),
  report: text('report'),
});

export const rotaProposal = sqliteTable('rota_proposal', {
  id: text('id').primaryKey(),
  runId: text('run_id').notNull(),
  shiftId: text('shift_id').notNull(),
  personId: text('person_id').notNull(),
  skill: text('skill', { enum: ['lifting', 'harvest', 'keys', 'guiding'] }),
  reason: text('reason').notNull(),
  state: text('state', { enum: ['proposed', 'replaced', 'invited', 'accepted', 'declined', 'withdrawn'] })
    .notNull()
    .default('proposed'),
  invitedAt: text('invited_at'),
  goodUntil: text('good_until'),
  answeredAt: text('answered_at'),
});
