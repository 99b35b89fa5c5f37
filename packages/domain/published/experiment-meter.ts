import type { Comparison, Study } from './experiments/comparison.ts';

const COLUMNS = [
  'study',
  'grade',
  'quantity',
  'published',
  'ours',
  'ours over published',
  'tolerance',
  'inside',
  'likely reason of a miss',
] as const;
const SUMMARY = ['study', 'grade', 'what it is', 'the one constant was fitted on', 'figures', 'scored', 'inside'] as const;

export interface StudyRun {
  readonly study: Study;
  readonly rows: readonly Comparison[];
}

/** Runs every experiment again; some seconds. */
export const runStudies = (studies: readonly Study[]): readonly StudyRun[] => studies.map((study) => ({ study, rows: study.run().rows }));

/** Every published figure of the experiments against ours, misses and unscored ones too; head first. */
export function experimentCells(runs: readonly StudyRun[]): readonly (readonly string[])[] {
  const rows = runs.flatMap(({ rows }) =>
    rows.map((row) => [
      row.study,
      row.grade,
      row.quantity,
      figure(row.published),
      figure(row.ours),
      row.published === 0 ? '' : figure(row.ours / row.published),
      row.tolerance,
      row.scored ? (row.within ? 'yes' : 'NO') : 'not scored',
      row.note,
    ]),
  );
  return [COLUMNS, ...rows];
}

/** One line a study: how many of its scored figures lie inside the tolerance. */
export function experimentSummary(runs: readonly StudyRun[]): readonly (readonly string[])[] {
  const lines = runs.map(({ study, rows }) => {
    const scored = rows.filter((row) => row.scored);
    return [
      study.id,
      study.grade,
      study.citation,
      study.fittedOn,
      String(rows.length),
      String(scored.length),
      String(scored.filter((row) => row.within).length),
    ];
  });
  const total = (column: number): string => String(lines.reduce((sum, line) => sum + Number(line[column]), 0));
  return [SUMMARY, ...lines, ['all', '', '', '', total(4), total(5), total(6)]];
}

const figure = (value: number): string => String(Number(value.toPrecision(3)));
