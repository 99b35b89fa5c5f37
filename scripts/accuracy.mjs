// `npm run accuracy` prints what is published against what we compute: worked examples, then experiments run again.
// `-- --markdown` prints it for the README, one line a study; `-- --quick` leaves the experiments out.
// `-- --docs` writes every figure of every experiment to docs/explanation/experiments.md.
// Exit 1 when a worked example fails. An experiment that is missed is said, not failed: the tests hold the share that must lie inside.
import { writeFileSync } from 'node:fs';
import { register } from 'tsx/esm/api';

register();
const published = await import(new URL('../packages/domain/published/index.ts', import.meta.url).href);

const markdown = process.argv.includes('--markdown');
const print = markdown ? published.asMarkdown : published.asText;
console.log(print(published.accuracyCells(published.ACCURACY_SOURCES)));
if (!process.argv.includes('--quick')) {
  const runs = published.runStudies(published.STUDIES);
  if (process.argv.includes('--docs'))
    writeFileSync(new URL('../docs/explanation/experiments.md', import.meta.url), published.experimentPage(runs));
  if (!markdown) console.log(`\n${print(published.experimentCells(runs))}`);
  console.log(`\n${print(published.experimentSummary(runs))}`);
}
if (!published.ACCURACY_SOURCES.every(({ rows }) => rows.every(published.holds))) process.exit(1);
