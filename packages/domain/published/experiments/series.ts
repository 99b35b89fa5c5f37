import { readFileSync } from 'node:fs';

/** A time course as published: day and mean mass of a worm [mg]. */
export interface Series {
  readonly id: string;
  readonly label: string;
  readonly points: readonly (readonly [number, number])[];
}

export type CsvRow = Readonly<Record<string, string>>;

/** Rows of a comma-separated file with a head, quotes allowed. */
export function readRows(file: string): readonly CsvRow[] {
  const text = readFileSync(new URL(`../measured/${file}`, import.meta.url), 'utf8');
  const [head = [], ...body] = text
    .split(/\r?\n/)
    .filter((line) => line !== '')
    .map(cells);
  return body.map((row) => Object.fromEntries(head.map((name, i) => [name, row[i] ?? ''])));
}

function cells(line: string): readonly string[] {
  return Array.from(line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g), ([, quoted, plain]) =>
    (quoted ?? plain ?? '').replaceAll('""', '"'),
  );
}

/** Time courses of a growth data set, by curve. */
export function readSeries(file: string): ReadonlyMap<string, Series> {
  const found = new Map<string, { id: string; label: string; points: [number, number][] }>();
  for (const row of readRows(file)) {
    const id = row.CURVE_ID ?? '';
    const series = found.get(id) ?? { id, label: row.treatment_level ?? '', points: [] };
    series.points.push([Number(row.day), Number(row.mean_body_mass_mg)]);
    found.set(id, series);
  }
  for (const { points } of found.values()) points.sort((a, b) => a[0] - b[0]);
  return found;
}

/** Published mass on a day, straight between the days measured. */
export function massAt({ points }: Pick<Series, 'points'>, day: number): number {
  const next = points.findIndex(([d]) => d >= day);
  if (next === 0) return points[0]![1];
  if (next < 0) return points.at(-1)![1];
  const [d0, m0] = points[next - 1]!;
  const [d1, m1] = points[next]!;
  return m0 + ((m1 - m0) * (day - d0)) / (d1 - d0);
}

export const maxMass = ({ points }: Pick<Series, 'points'>): number => Math.max(...points.map(([, mass]) => mass));

/** First day a published series reaches a mass. */
export function daysTo(points: readonly (readonly [number, number])[], massMg: number): number {
  const at = points.findIndex(([, mass]) => mass >= massMg);
  const [d1, m1] = points[at]!;
  const [d0, m0] = points[Math.max(0, at - 1)]!;
  return m1 === m0 ? d1 : d0 + ((d1 - d0) * (massMg - m0)) / (m1 - m0);
}
