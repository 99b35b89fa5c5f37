import { integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const care = sqliteTable('care', {
  entryId: text('entry_id').primaryKey(),
  action: text('action', {
    enum: ['loosened', 'watered', 'bedding', 'inoculated', 'drained', 'moved', 'covered', 'taken-out', 'rested', 'woken', 'retired'],
  }).notNull(),
  zone: integer('zone'),
  grams: integer('grams'),
  materialId: text('material_id'),
  exposure: text('exposure', { enum: ['indoors', 'shade', 'part-sun', 'full-sun'] }),
  share: real('share'),
});

export const wormMove = sqliteTable('worm_move', {
  entryId: text('entry_id').primaryKey(),
  direction: text('direction', { enum: ['added', 'given-away', 'split-off'] }).notNull(),
  grams: integer('grams'),
  how: text('how', { enum: ['weighed', 'container', 'guessed'] }).notNull(),
  share: real('share'),
  otherBinId: text('other_bin_id'),
});

export const containerWeighing = sqliteTable('container_weighing', {
  id: text('id').primaryKey(),
  containerId: text('container_id').notNull(),
  netG: integer('net_g').notNull(),
  filled: real('filled').notNull().default(1),
  personId: text('person_id'),
  weighedAt: text('weighed_at').notNull(),
});

export const materialFigure = sqliteTable('material_figure', {
  materialId: text('material_id').primaryKey(),
  moistureFracWb: real('moisture_frac_wb'),
  carbonFracDb: real('carbon_frac_db'),
  nitrogenFracDb: real('nitrogen_frac_db'),
  bulkDensityKgM3: real('bulk_density_kg_m3'),
  source: text('source').notNull(),
  personId: text('person_id'),
  filledAt: text('filled_at').notNull(),
});

export const beddingMove = sqliteTable('bedding_move', {
  id: text('id').primaryKey(),
  siteId: text('site_id').notNull(),
  materialId: text('material_id').notNull(),
  kind: text('kind', { enum: ['brought', 'counted', 'thrown-away'] }).notNull(),
  grams: integer('grams').notNull(),
  note: text('note').notNull().default(''),
  personId: text('person_id'),
  movedAt: text('moved_at').notNull(),
});

export const airReading = sqliteTable(
  'air_reading',
  {
    siteId: text('site_id').notNull(),
    localDate: text('local_date').notNull(),
    meanC: real('mean_c').notNull(),
  },
  (table) => [primaryKey({ columns: [table.siteId, table.localDate] })],
);
