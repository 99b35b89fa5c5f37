import { experimentCells, experimentSummary, type StudyRun } from './experiment-meter.ts';
import { asMarkdown } from './meter.ts';

/** The page of docs/explanation that keeps every figure of every study, misses with their likely reason. */
export function experimentPage(runs: readonly StudyRun[]): string {
  return `# Experiments run again

Made by \`npm run accuracy -- --docs\`; a test compares it with what the model says now. One quality constant per study is fitted on the series named below; everything else is predicted. Shared parameters of the model were chosen by scanning these same studies, so the figures are not blind. Misses stay in, with the likely reason.

## One line a study

${asMarkdown(experimentSummary(runs))}

## Every figure

\`ours / published\` is a ratio; a figure that is not scored says why in its note.

${asMarkdown(experimentCells(runs))}
`;
}
