import type { BoundRoute } from '../../routing/route.ts';
import { addSheetImport } from './add-sheet-import.ts';
import { answerSheetImport } from './answer-sheet-import.ts';
import { listSheetImports } from './list-sheet-imports.ts';
import { readRefusedRows } from './read-refused-rows.ts';
import { readSheetImport } from './read-sheet-import.ts';
import { takeSheetImport } from './take-sheet-import.ts';
import { undoSheetImport } from './undo-sheet-import.ts';

export const sheetImportHandlers: readonly BoundRoute[] = [
  listSheetImports,
  addSheetImport,
  readSheetImport,
  answerSheetImport,
  takeSheetImport,
  undoSheetImport,
  readRefusedRows,
];
