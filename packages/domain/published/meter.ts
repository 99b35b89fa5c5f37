import type { AccuracyRow, AccuracySource } from './accuracy-row.ts';

const COLUMNS = ['source', 'check', 'quantity', 'published', 'ours', 'difference', 'tolerance', 'tag', 'holds'] as const;

/** Whether a row holds: within the tolerance of what is published, or, for a known slip, outside it and on the right figure. */
export function holds(row: AccuracyRow): boolean {
  const ours = row.ours();
  const near = Math.abs(ours - row.published) <= row.tolerance;
  if (row.tag !== 'negative') return near;
  return !near && row.right !== undefined && Math.abs(ours - row.right) <= 0.001 * Math.abs(row.right);
}

/** The accuracy table as cells, head first. */
export function accuracyCells(sources: readonly AccuracySource[]): readonly (readonly string[])[] {
  const rows = sources.flatMap(({ source, rows }) =>
    rows.map((row) => {
      const ours = row.ours();
      const verdict = holds(row) ? (row.tag === 'negative' ? 'yes (must differ)' : 'yes') : 'NO';
      const unit = row.unit === '' ? '' : ` ${row.unit}`;
      return [
        source,
        row.id,
        row.quantity,
        `${figure(row.published)}${unit}`,
        `${figure(ours)}${unit}`,
        figure(ours - row.published),
        figure(row.tolerance),
        row.tag,
        verdict,
      ];
    }),
  );
  return [COLUMNS, ...rows];
}

/** Table for a terminal: columns padded. */
export function asText(cells: readonly (readonly string[])[]): string {
  const widths = (cells[0] ?? []).map((_, column) => Math.max(...cells.map((row) => row[column]?.length ?? 0)));
  return cells
    .map((row) =>
      row
        .map((cell, column) => cell.padEnd(widths[column] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

/** The same table for the README. */
export function asMarkdown(cells: readonly (readonly string[])[]): string {
  const line = (row: readonly string[]) => `| ${row.join(' | ')} |`;
  const [head = [], ...body] = cells;
  return [line(head), line(head.map(() => '---')), ...body.map(line)].join('\n');
}

function figure(value: number): string {
  if (Math.abs(value) < 1e-9) return '0';
  return Math.abs(value) < 1e-6 ? value.toExponential(0) : String(Number(value.toPrecision(5)));
}
