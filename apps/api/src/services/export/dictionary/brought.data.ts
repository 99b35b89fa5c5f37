import type { TableWords } from './types.ts';

export const BROUGHT: readonly TableWords[] = [
  {
    table: 'sheet_import',
    row: 'A spreadsheet that was brought in',
    columns: {
      kind: 'What its rows were: feedings, checks, harvests or hours',
      file_name: 'Name of the file',
      sha256: 'SHA-256 of the file, in hexadecimal',
      cells: 'Its cells as JSON while they wait to be taken; an empty list afterwards',
      headings: 'Its headings, a JSON list',
      answers: 'Which column was which, and what was answered, as JSON',
      refused: 'Rows with a fault and why, as JSON',
      person_id: 'Who brought it in (table person)',
      done_at: 'When its rows were taken, an instant in UTC; empty: not yet',
      undone_at: 'When all of it was undone, an instant in UTC; empty: it stands',
      rows_skipped: 'Blank rows and totals, a count',
    },
  },
  {
    table: 'sheet_import_row',
    row: 'What came of a row of a spreadsheet',
    columns: {
      import_id: 'The spreadsheet (table sheet_import)',
      row: 'Number of the row in the file, the first is 1',
      print: 'Checksum of what the row says, by which it is known again',
      entry_id: 'The entry made of it (table entry); empty: none',
      sign_up_id: 'The place on a shift made of it (table sign_up); empty: none',
    },
  },
];
