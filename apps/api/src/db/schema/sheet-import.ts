import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const sheetImport = sqliteTable('sheet_import', {
  id: text('id').primaryKey(),
  kind: text('kind', { enum: ['feedings', 'checks', 'harvests', 'hours'] }).notNull(),
  fileName: text('file_name').notNull(),
  sha256: text('sha256').notNull(),
  cells: text('cells').notNull(),
  headings: text('headings').notNull().default('[]'),
  answers: text('answers').notNull().default('{}'),
  refused: text('refused').notNull().default('[]'),
  personId: text('person_id'),
  madeAt: text('made_at').notNull(),
  doneAt: text('done_at'),
  undoneAt: text('undone_at'),
  rowsSkipped: integer('rows_skipped').notNull().default(0),
});

export const sheetImportRow = sqliteTable(
  'sheet_import_row',
  {
    importId: text('import_id').notNull(),
    row: integer('row').notNull(),
    print: text('print').notNull(),
    entryId: text('entry_id'),
    signUpId: text('sign_up_id'),
  },
  (table) => [primaryKey({ columns: [table.importId, table.row] })],
);
