// `npm run accuracy` prints what is published against what we compute; `-- --markdown` prints it for the README. Exit 1 when a row fails.
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const entry = fileURLToPath(new URL('../packages/domain/published/index.ts', import.meta.url));
const { outputFiles } = await build({
  entryPoints: [entry],
  bundle: true,
  format: 'esm',
  platform: 'node',
  write: false,
  logLevel: 'error',
});
const code = Buffer.from(outputFiles[0].contents).toString('base64');
const { ACCURACY_SOURCES, accuracyCells, asMarkdown, asText, holds } = await import(`data:text/javascript;base64,${code}`);

const cells = accuracyCells(ACCURACY_SOURCES);
console.log(process.argv.includes('--markdown') ? asMarkdown(cells) : asText(cells));
if (!ACCURACY_SOURCES.every(({ rows }) => rows.every(holds))) process.exit(1);
