import { integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const entry = sqliteTable('entry', {
  id: text('id').primaryKey(),
  kind: text('kind', { enum: ['feeding', 'check', 'harvest', 'care', 'note', 'worms'] }).notNull(),
  binId: text('bin_id').notNull(),
  personId: text('person_id'),
  shiftId: text('shift_id'),
  happenedAt: text('happened_at').notNull(),
  localDate: text('local_date').notNull(),
  deviceAt: text('device_at'),
  receivedAt: text('received_at').notNull(),
  skewS: integer('skew_s'),
  note: text('note').notNull().default(''),
  revision: integer('revision').notNull().default(1),
  undoneAt: text('undone_at'),
  undoneBy: text('undone_by'),
});

export const entryRevision = sqliteTable(
  'entry_revision',
  {
    entryId: text('entry_id').notNull(),
    revision: integer('revision').notNull(),
    body: text('body').notNull(),
    replacedAt: text('replaced_at').notNull(),
    replacedBy: text('replaced_by'),
  },
  (table) => [primaryKey({ columns: [table.entryId, table.revision] })],
);

export const feeding = sqliteTable('feeding', {
  entryId: text('entry_id').primaryKey(),
  zone: integer('zone').notNull(),
  beddingG: integer('bedding_g').notNull().default(0),
  beddingMaterialId: text('bedding_material_id'),
  waterG: integer('water_g').notNull().default(0),
});

export const feedingItem = sqliteTable(
  'feeding_item',
  {
    entryId: text('entry_id').notNull(),
    seq: integer('seq').notNull(),
    materialId: text('material_id').notNull(),
    grams: integer('grams').notNull(),
    how: text('how', { enum: ['weighed', 'container', 'guessed'] }).notNull(),
    preparation: text('preparation', { enum: ['whole', 'chopped', 'frozen', 'pureed'] })
      .notNull()
      .default('chopped'),
    containerId: text('container_id'),
    containerCount: real('container_count'),
    typedValue: real('typed_value'),
    typedUnit: text('typed_unit', { enum: ['kg', 'g', 'lb', 'oz', 'container'] }),
    tareG: integer('tare_g').notNull().default(0),
  },
  (table) => [primaryKey({ columns: [table.entryId, table.seq] })],
);

export const binCheck = sqliteTable('bin_check', {
  entryId: text('entry_id').primaryKey(),
  squeeze: text('squeeze', { enum: ['crumbles', 'damp', 'one-two-drops', 'few-drops', 'trickle'] }),
  smell: text('smell', { enum: ['earthy', 'sour', 'rotten', 'ammonia'] }),
  bedTempC: real('bed_temp_c'),
  worms: text('worms', { enum: ['none', 'few', 'some', 'many'] }),
  ph: real('ph'),
});

export const checkLeftover = sqliteTable(
  'check_leftover',
  {
    entryId: text('entry_id').notNull(),
    zone: integer('zone').notNull(),
    leftOver: text('left_over', { enum: ['none', 'little', 'half', 'most', 'all'] }).notNull(),
  },
  (table) => [primaryKey({ columns: [table.entryId, table.zone] })],
);

export const checkVisitor = sqliteTable(
  'check_visitor',
  {
    entryId: text('entry_id').notNull(),
    visitor: text('visitor').notNull(),
  },
  (table) => [primaryKey({ columns: [table.entryId, table.visitor] })],
);
