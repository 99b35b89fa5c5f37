import { integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const material = sqliteTable('material', {
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  kind: text('kind', { enum: ['food', 'bedding', 'amendment'] }).notNull(),
  moistureFracWb: real('moisture_frac_wb').notNull(),
  carbonFracDb: real('carbon_frac_db').notNull(),
  nitrogenFracDb: real('nitrogen_frac_db').notNull(),
  bulkDensityKgM3: real('bulk_density_kg_m3').notNull(),
  ratesLike: text('rates_like').notNull(),
  createdAt: text('created_at').notNull(),
});

export const container = sqliteTable('container', {
  id: text('id').primaryKey(),
  siteId: text('site_id').notNull(),
  name: text('name').notNull(),
  volumeMl: integer('volume_ml').notNull(),
  tareG: integer('tare_g').notNull().default(0),
  fullG: integer('full_g').notNull(),
  archived: integer('archived', { mode: 'boolean' }).notNull().default(false),
  createdAt: text('created_at').notNull(),
});
