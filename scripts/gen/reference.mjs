// docs/reference, made from the registries by scripts/reference. Bundled in memory, since Node 20 cannot run TypeScript.
import { build } from 'esbuild';
import { filesUnder, fromRoot, root } from '../lib.mjs';

const isPlainModule = (file) => /\.ts$/.test(file) && !/\.test\.ts$|\/index\.ts$/.test(file);

/** One entry that hands the pages every file of the domain, so that a new process is listed without being named anywhere. */
function entryText() {
  const files = filesUnder([
    'packages/domain/src/bin',
    'packages/domain/src/ensemble',
    'packages/domain/src/plan',
    'packages/domain/src/materials',
  ])
    .filter(isPlainModule)
    .map(fromRoot);
  const imports = files.map((file, index) => `import * as part${index} from './${file}';`);
  const modules = files.map((file, index) => `'${file}': part${index}`);
  return `${imports.join('\n')}
import { referenceTexts } from './scripts/reference/registry.ts';
export const texts = referenceTexts({ ${modules.join(', ')} });`;
}

/** @returns {Promise<{ path: string, make: () => string }[]>} as scripts/gen.mjs wants them */
export async function referencePages() {
  const { outputFiles } = await build({
    stdin: { contents: entryText(), resolveDir: root, loader: 'ts', sourcefile: 'reference-entry.ts' },
    absWorkingDir: root,
    bundle: true,
    format: 'esm',
    platform: 'node',
    write: false,
    logLevel: 'error',
  });
  const code = Buffer.from(outputFiles[0].contents).toString('base64');
  const { texts } = await import(`data:text/javascript;base64,${code}`);
  return Object.entries(texts).map(([path, text]) => ({ path, make: () => text }));
}
