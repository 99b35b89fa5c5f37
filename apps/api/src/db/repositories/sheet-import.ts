/** Spreadsheets that were brought in, and what came of their rows. */
import type { ImportKind } from '@middenry/domain';
import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface SheetImportRow {
  readonly id: string;
  readonly kind: ImportKind;
  readonly fileName: string;
  readonly sha256: string;
  /** JSON. */
  readonly cells: string;
  readonly headings: string;
  readonly answers: string;
  readonly refused: string;
  readonly personId: string | null;
  readonly madeAt: string;
  readonly doneAt: string | null;
  readonly undoneAt: string | null;
  readonly rowsSkipped: number;
}

const READ = `SELECT id, kind, file_name AS fileName, sha256, cells, headings, answers, refused, person_id AS personId, made_at AS madeAt,
    done_at AS doneAt, undone_at AS undoneAt, rows_skipped AS rowsSkipped FROM sheet_import`;

export const sheetImportById = (store: Store, id: string): SheetImportRow | null => one<SheetImportRow>(store, `${READ} WHERE id = ?`, id);

export const newestSheetImports = (store: Store, limit: number): SheetImportRow[] =>
  all<SheetImportRow>(store, `${READ} ORDER BY made_at DESC, id DESC LIMIT ?`, limit);

export function insertSheetImport(store: Store, row: Omit<SheetImportRow, 'doneAt' | 'undoneAt' | 'refused' | 'rowsSkipped'>): void {
  run(
    store,
    `INSERT INTO sheet_import (id, kind, file_name, sha256, cells, headings, answers, person_id, made_at)
     VALUES (@id, @kind, @fileName, @sha256, @cells, @headings, @answers, @personId, @madeAt)`,
    row,
  );
}

export const setImportAnswers = (store: Store, id: string, answers: string): number =>
  run(store, 'UPDATE sheet_import SET answers = ? WHERE id = ? AND done_at IS NULL', answers, id);

export function markImported(store: Store, done: { id: string; at: string; refused: string; rowsSkipped: number }): void {
  run(
    store,
    `UPDATE sheet_import SET done_at = @at, refused = @refused, rows_skipped = @rowsSkipped, cells = '[]' WHERE id = @id AND done_at IS NULL`,
    done,
  );
}

export const markImportUndone = (store: Store, id: string, at: string): number =>
  run(store, 'UPDATE sheet_import SET undone_at = ? WHERE id = ? AND undone_at IS NULL AND done_at IS NOT NULL', at, id);

export const deleteSheetImport = (store: Store, id: string): number =>
  run(store, 'DELETE FROM sheet_import WHERE id = ? AND done_at IS NULL', id);

/** The answers to the last file of this kind that was taken in with these headings. */
export const answersBefore = (store: Store, kind: ImportKind, headings: string): string | null =>
  one<{ answers: string }>(
    store,
    'SELECT answers FROM sheet_import WHERE kind = ? AND headings = ? AND done_at IS NOT NULL ORDER BY done_at DESC LIMIT 1',
    kind,
    headings,
  )?.answers ?? null;

/** When this very file was taken in, if it was and was not undone. */
export const importedBefore = (store: Store, kind: ImportKind, sha256: string): string | null =>
  one<{ doneAt: string }>(
    store,
    `SELECT done_at AS doneAt FROM sheet_import WHERE kind = ? AND sha256 = ? AND done_at IS NOT NULL AND undone_at IS NULL
     ORDER BY done_at DESC LIMIT 1`,
    kind,
    sha256,
  )?.doneAt ?? null;

/** Which of these rows came in already, by their prints, and were not undone with their import. */
export function printsTaken(store: Store, prints: readonly string[]): Set<string> {
  const rows = all<{ print: string }>(
    store,
    `SELECT DISTINCT r.print FROM sheet_import_row r JOIN sheet_import i ON i.id = r.import_id
     WHERE i.undone_at IS NULL AND r.print IN (SELECT value FROM json_each(?))`,
    JSON.stringify(prints),
  );
  return new Set(rows.map((row) => row.print));
}

export interface TakenRow {
  readonly importId: string;
  readonly row: number;
  readonly print: string;
  readonly entryId: string | null;
  readonly signUpId: string | null;
}

export const insertTakenRow = (store: Store, row: TakenRow): number =>
  run(
    store,
    'INSERT INTO sheet_import_row (import_id, row, print, entry_id, sign_up_id) VALUES (@importId, @row, @print, @entryId, @signUpId)',
    row,
  );

export const takenRows = (store: Store, importId: string): TakenRow[] =>
  all<TakenRow>(
    store,
    `SELECT import_id AS importId, row, print, entry_id AS entryId, sign_up_id AS signUpId FROM sheet_import_row WHERE import_id = ? ORDER BY row`,
    importId,
  );

export const countTaken = (store: Store, importId: string): number =>
  one<{ rows: number }>(store, 'SELECT count(*) AS rows FROM sheet_import_row WHERE import_id = ?', importId)!.rows;
