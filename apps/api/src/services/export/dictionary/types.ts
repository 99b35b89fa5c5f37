/** What a table of the export is, in words that need no knowledge of the program. */
export interface TableWords {
  readonly table: string;
  /** What one row is. */
  readonly row: string;
  /** Columns that `COMMON` does not explain, or explains otherwise. */
  readonly columns: Readonly<Record<string, string>>;
  /** Columns that stay behind, each with the reason. */
  readonly leftOut?: Readonly<Record<string, string>>;
  /** Rows that stay behind: they speak of this machine and not of the programme. */
  readonly without?: { readonly column: string; readonly values: readonly string[] };
}
