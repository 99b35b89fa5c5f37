/** One page of docs/reference, made from a registry and therefore never out of step with it. */
export interface ReferencePage {
  /** Below docs/reference. */
  readonly file: string;
  readonly title: string;
  /** One or two sentences: what it lists and from where it is made. */
  readonly about: string;
  readonly body: () => string;
}

const escaped = (cell: string): string => cell.replaceAll('|', '\\|').replace(/\s*\n\s*/g, ' ');

/** A Markdown table. */
export function markdownTable(head: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  const line = (cells: readonly (string | number)[]): string => `| ${cells.map((cell) => escaped(String(cell))).join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

/** A number as short as it can be said without losing anything. */
export const plain = (value: number | null | undefined): string =>
  value === null || value === undefined ? '' : String(Number(value.toPrecision(6)));

export const textOf = ({ title, about, body }: ReferencePage): string => `# ${title}\n\n${about}\n\n${body()}\n`;
