/** What `npm run accuracy` needs. */

export { experimentCells, experimentSummary, runStudies } from './experiment-meter.ts';
export { experimentPage } from './experiment-page.ts';
export { STUDIES } from './experiments/index.ts';
export { accuracyCells, asMarkdown, asText, holds } from './meter.ts';
export { ACCURACY_SOURCES } from './registry.ts';
