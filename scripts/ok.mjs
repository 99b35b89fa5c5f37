// `npm run ok`: everything that has to hold before a change goes in. The same on a desk and in CI.
// `npm run ok -- types lint` runs only the steps whose names begin so.
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ensureBuilt } from './build.mjs';
import { ensureInstalled } from './install.mjs';
import { main, root, run, runQuietly, Sorry, say } from './lib.mjs';

const bin = (path) => join(root, 'node_modules', path);
const node = (file, ...args) => run(process.execPath, [bin(file), ...args]);
const inWeb = (file, ...args) => run(process.execPath, [bin(file), ...args], { cwd: join(root, 'apps/web') });

/** Hash of each file that git knows or would add, by path. */
function hashes() {
  const { status, output } = runQuietly('git', ['ls-files', '--cached', '--others', '--exclude-standard', '-z']);
  if (status !== 0) throw new Sorry('The list of files could not be read.', { why: output.trim(), next: 'run this inside the git clone' });
  const files = output.split('\0').filter((path) => path && existsSync(join(root, path)));
  return new Map(
    files.map((path) => [
      path,
      createHash('sha256')
        .update(readFileSync(join(root, path)))
        .digest('hex'),
    ]),
  );
}

async function generatedFilesAreFresh() {
  const before = hashes();
  const code = await run(process.execPath, ['scripts/gen.mjs']);
  if (code !== 0) return code;
  const stale = [...hashes()].filter(([path, hash]) => before.get(path) !== hash).map(([path]) => path);
  for (const path of stale) say(`was not what \`npm run gen\` makes, and is now: ${path}`);
  return stale.length === 0 ? 0 : 1;
}

async function typesHold() {
  const codes = [
    await node('typescript/bin/tsc', '-p', 'tsconfig.json', '--noEmit'),
    await node('typescript/bin/tsc', '-p', 'packages/domain/tsconfig.json', '--noEmit'),
    await inWeb('@sveltejs/kit/svelte-kit.js', 'sync'),
    await inWeb('svelte-check/bin/svelte-check', '--tsconfig', './tsconfig.json', '--fail-on-warnings'),
  ];
  return Math.max(...codes);
}

const steps = [
  ['types', typesHold],
  ['lint and format', () => node('@biomejs/biome/bin/biome', 'check', '--error-on-warnings')],
  ['generated files', generatedFilesAreFresh],
  ['build', () => ensureBuilt().then(() => 0)],
  ['tests', () => run(process.execPath, ['scripts/test.mjs'])],
];

await main(async () => {
  const wanted = process.argv.slice(2);
  const unknown = wanted.filter((word) => !steps.some(([name]) => name.startsWith(word)));
  if (unknown.length > 0)
    throw new Sorry(`There is no step ${unknown.join(', ')}.`, {
      next: `name some of: ${steps.map(([name]) => name.split(' ')[0]).join(', ')}`,
    });
  const chosen = steps.filter(([name]) => wanted.length === 0 || wanted.some((word) => name.startsWith(word)));
  await ensureInstalled();
  const failed = [];
  for (const [name, step] of chosen) {
    say(name);
    if ((await step()) !== 0) failed.push(name);
  }
  if (failed.length > 0) throw new Sorry(`Not ok: ${failed.join(', ')}.`, { next: 'mend what is printed above, then `npm run ok` again' });
  say(wanted.length === 0 ? 'ok' : `ok: ${chosen.map(([name]) => name).join(', ')}; the other steps did not run`);
});
