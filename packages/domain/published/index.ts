/** What `npm run accuracy` needs. */
export { accuracyCells, asMarkdown, asText, holds } from './meter.ts';
export { ACCURACY_SOURCES } from './registry.ts';
