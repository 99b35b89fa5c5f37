import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const intakePlan = sqliteTable('intake_plan', {
  id: text('id').primaryKey(),
  siteId: text('site_id').notNull(),
  localDate: text('local_date').notNull(),
  plan: text('plan').notNull(),
  madeBy: text('made_by'),
  madeAt: text('made_at').notNull(),
  acceptedAt: text('accepted_at'),
  shiftId: text('shift_id'),
});

export const intakeStream = sqliteTable(
  'intake_stream',
  {
    planId: text('plan_id').notNull(),
    seq: integer('seq').notNull(),
    source: text('source').notNull(),
    materialId: text('material_id').notNull(),
    grams: integer('grams').notNull(),
  },
  (table) => [primaryKey({ columns: [table.planId, table.seq] })],
);

export const shiftFeeding = sqliteTable(
  'shift_feeding',
  {
    shiftId: text('shift_id').notNull(),
    binId: text('bin_id').notNull(),
    part: text('part', { enum: ['scraps', 'bedding'] }).notNull(),
    materialId: text('material_id').notNull(),
    grams: integer('grams').notNull(),
    planId: text('plan_id').notNull(),
  },
  (table) => [primaryKey({ columns: [table.shiftId, table.binId, table.part, table.materialId] })],
);
