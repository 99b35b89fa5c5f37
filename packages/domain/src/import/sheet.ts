/** A cell as it was found. A spreadsheet program knows which of its cells are numbers and days; a CSV knows text only. */
export interface SheetCell {
  readonly text: string;
  readonly number?: number | undefined;
  /** A day by the calendar, as 2026-11-25. */
  readonly day?: string | undefined;
  /** Time of day beside it, as 14:30. */
  readonly time?: string | undefined;
}

export type SheetRow = readonly SheetCell[];

export const EMPTY_CELL: SheetCell = { text: '' };

export const cellAt = (row: SheetRow, column: number): SheetCell => row[column] ?? EMPTY_CELL;

/** Lower case, without accents and signs, one space between words: what two people write alike without meaning to. */
export const plainText = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}°%]+/gu, ' ')
    .trim();

export const isBlank = (row: SheetRow): boolean => row.every((cell) => cell.text.trim() === '');
