import { integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const programme = sqliteTable('programme', {
  id: text('id').primaryKey(),
  one: integer('one').notNull().default(1),
  name: text('name').notNull(),
  isDemo: integer('is_demo', { mode: 'boolean' }).notNull(),
  timeZone: text('time_zone').notNull(),
  units: text('units', { enum: ['metric', 'us'] })
    .notNull()
    .default('metric'),
  locale: text('locale').notNull().default('en-GB'),
  createdAt: text('created_at').notNull(),
  photosOfPeople: integer('photos_of_people', { mode: 'boolean' }).notNull().default(false),
});

export const site = sqliteTable('site', {
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  timeZone: text('time_zone').notNull(),
  note: text('note').notNull().default(''),
  minC: text('min_c'),
  maxC: text('max_c'),
  archived: integer('archived', { mode: 'boolean' }).notNull().default(false),
  createdAt: text('created_at').notNull(),
});

export const bin = sqliteTable('bin', {
  id: text('id').primaryKey(),
  siteId: text('site_id').notNull(),
  code: text('code').notNull(),
  name: text('name').notNull(),
  kind: text('kind', { enum: ['tote', 'tray-stack', 'flow-through', 'fabric', 'bed', 'pit', 'vessel'] }).notNull(),
  areaM2: real('area_m2').notNull(),
  depthM: real('depth_m').notNull(),
  zones: integer('zones').notNull(),
  openBase: integer('open_base', { mode: 'boolean' }).notNull(),
  exposure: text('exposure', { enum: ['indoors', 'shade', 'part-sun', 'full-sun'] }).notNull(),
  startedOn: text('started_on').notNull(),
  startWormsG: integer('start_worms_g').notNull(),
  startBedWaterG: integer('start_bed_water_g').notNull(),
  checkIntervalDays: integer('check_interval_days').notNull(),
  placeOrder: integer('place_order').notNull().default(0),
  state: text('state', { enum: ['active', 'resting', 'retired'] })
    .notNull()
    .default('active'),
  note: text('note').notNull().default(''),
  revision: integer('revision').notNull().default(1),
  createdAt: text('created_at').notNull(),
});

export const binStartBed = sqliteTable(
  'bin_start_bed',
  {
    binId: text('bin_id').notNull(),
    seq: integer('seq').notNull(),
    materialId: text('material_id').notNull(),
    grams: integer('grams').notNull(),
  },
  (table) => [primaryKey({ columns: [table.binId, table.seq] })],
);
