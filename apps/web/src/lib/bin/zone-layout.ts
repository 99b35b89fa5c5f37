/** Where the zones of a bin lie, seen from above: rows of cells, walked to and fro as people feed. */
export interface ZoneCell {
  readonly zone: number;
  readonly column: number;
  readonly row: number;
}
export interface ZoneLayout {
  readonly columns: number;
  readonly rows: number;
  readonly cells: readonly ZoneCell[];
}

/**
 * Zones 1 to n in at most four columns; every second row runs backwards, so that the next zone is
 * always beside the last one.
 */
export function layoutZones(zones: number): ZoneLayout {
  const rows = zones <= 3 ? 1 : zones <= 8 ? 2 : 3;
  const columns = Math.ceil(zones / rows);
  const cells = Array.from({ length: zones }, (_, i) => {
    const row = Math.floor(i / columns);
    const along = i % columns;
    return { zone: i + 1, row, column: row % 2 === 0 ? along : columns - 1 - along };
  });
  return { columns, rows, cells };
}

/** The same cells in reading order, for a grid of buttons; null where a row is not full. */
export function zonesInReadingOrder(zones: number): (number | null)[] {
  const { columns, rows, cells } = layoutZones(zones);
  const grid: (number | null)[] = Array.from({ length: columns * rows }, () => null);
  for (const cell of cells) grid[cell.row * columns + cell.column] = cell.zone;
  return grid;
}
