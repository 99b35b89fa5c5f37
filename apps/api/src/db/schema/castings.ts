import { integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const harvest = sqliteTable('harvest', {
  entryId: text('entry_id').primaryKey(),
  grams: integer('grams').notNull(),
  how: text('how', { enum: ['weighed', 'container', 'guessed'] }).notNull(),
  typedValue: real('typed_value'),
  typedUnit: text('typed_unit', { enum: ['kg', 'g', 'lb', 'oz', 'container'] }),
  destination: text('destination', { enum: ['plots', 'beds', 'class', 'sale', 'given-away', 'stock', 'curing', 'other'] }).notNull(),
  destinationNote: text('destination_note').notNull().default(''),
  siteId: text('site_id').notNull(),
  readyOn: text('ready_on'),
  screened: integer('screened', { mode: 'boolean' }),
  volumeMl: integer('volume_ml'),
  squeeze: text('squeeze', { enum: ['crumbles', 'damp', 'one-two-drops', 'few-drops', 'trickle'] }),
  dishMg: integer('dish_mg'),
  wetMg: integer('wet_mg'),
  dryMg: integer('dry_mg'),
});

export const harvestBucket = sqliteTable(
  'harvest_bucket',
  {
    entryId: text('entry_id').notNull(),
    seq: integer('seq').notNull(),
    grossG: integer('gross_g').notNull(),
    tareG: integer('tare_g').notNull(),
    containerId: text('container_id'),
    typedValue: real('typed_value'),
    typedUnit: text('typed_unit', { enum: ['kg', 'g', 'lb', 'oz', 'container'] }),
  },
  (table) => [primaryKey({ columns: [table.entryId, table.seq] })],
);

export const harvestExpected = sqliteTable('harvest_expected', {
  entryId: text('entry_id').primaryKey(),
  lowG: integer('low_g').notNull(),
  midG: integer('mid_g').notNull(),
  highG: integer('high_g').notNull(),
});

export const castingsMove = sqliteTable('castings_move', {
  id: text('id').primaryKey(),
  siteId: text('site_id').notNull(),
  kind: text('kind', { enum: ['given-out', 'brought-in', 'written-off'] }).notNull(),
  grams: integer('grams').notNull(),
  how: text('how', { enum: ['weighed', 'container', 'guessed'] }).notNull(),
  typedValue: real('typed_value'),
  typedUnit: text('typed_unit', { enum: ['kg', 'g', 'lb', 'oz', 'container'] }),
  destination: text('destination', { enum: ['plots', 'beds', 'class', 'sale', 'given-away', 'other'] }),
  destinationNote: text('destination_note').notNull().default(''),
  receiver: text('receiver'),
  note: text('note').notNull().default(''),
  personId: text('person_id'),
  localDate: text('local_date').notNull(),
  movedAt: text('moved_at').notNull(),
  undoneAt: text('undone_at'),
  undoneBy: text('undone_by'),
});
