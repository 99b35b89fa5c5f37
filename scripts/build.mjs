// Builds the server (esbuild, our own packages folded in) and the pages (vite). Each part only when its sources changed.
import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ensureInstalled, installStamp } from './install.mjs';
import { filesUnder, fromRoot, hashOf, main, readStamp, root, run, Sorry, say, withLock, writeStamp } from './lib.mjs';

const apiOut = join(root, 'apps/api/build');
const webOut = join(root, 'apps/web/build');

/** What the server process and the command line start from; a missing one is left out until somebody writes it. */
const apiEntries = {
  server: 'apps/api/src/server.ts',
  cli: 'apps/api/src/cli/main.ts',
  'model-worker': 'apps/api/src/services/model-worker.ts',
  'keep-worker': 'apps/api/src/db/keep/keep-worker.ts',
  seed: 'seed/main.ts',
};

const isSource = (file) => !/\.(test|spec)\.ts$|\.md$/.test(file);

const parts = {
  api: {
    out: apiOut,
    sources: [
      'packages/domain/src',
      'packages/contract/src',
      'apps/api/src',
      'apps/api/package.json',
      'seed',
      'shared',
      'scripts/build.mjs',
    ],
    needs: Object.values(apiEntries),
    make: buildApi,
  },
  web: {
    out: webOut,
    sources: ['packages/domain/src', 'packages/contract/src', 'apps/web', 'scripts/build.mjs'],
    needs: ['apps/web/src/app.html'],
    make: buildWeb,
  },
};

async function buildApi() {
  const { build, stop } = await import('esbuild');
  const entryPoints = Object.fromEntries(Object.entries(apiEntries).filter(([, file]) => existsSync(join(root, file))));
  rmSync(apiOut, { recursive: true, force: true });
  await build({
    absWorkingDir: root,
    entryPoints,
    outdir: apiOut,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    splitting: true,
    chunkNames: 'part-[hash]',
    format: 'esm',
    platform: 'node',
    target: 'node20',
    sourcemap: 'linked',
    logLevel: 'warning',
    plugins: [ownPackagesOnly],
  });
  // esbuild keeps a helper process; `npm start` goes on as the server and must not carry it along.
  await stop();
}

/** Folds in our own packages; everything from npm stays outside and is found in node_modules when the server runs. */
const ownPackagesOnly = {
  name: 'own-packages-only',
  setup(build) {
    build.onResolve({ filter: /^[^./]/ }, ({ path, kind }) =>
      kind === 'entry-point' || path.startsWith('@middenry/') ? undefined : { path, external: true },
    );
  },
};

async function buildWeb() {
  const vite = join(root, 'node_modules/vite/bin/vite.js');
  const code = await run(process.execPath, [vite, 'build', '--logLevel', 'warn'], { cwd: join(root, 'apps/web'), quiet: true });
  if (code !== 0) throw new Sorry('The pages could not be built.', { why: 'see the lines above', next: 'cd apps/web && npx vite build' });
}

function stampOf(part) {
  return hashOf(filesUnder(part.sources).filter(isSource), installStamp());
}

function isFresh(part) {
  return readStamp(join(part.out, '.stamp')) === stampOf(part);
}

/** Builds whatever is stale. `only` names the parts wanted; by default both. */
export async function ensureBuilt(only = Object.keys(parts)) {
  const wanted = only.map((name) => [name, parts[name]]).filter(([, part]) => part.needs.some((file) => existsSync(join(root, file))));
  if (wanted.every(([, part]) => isFresh(part))) return;
  await withLock('build', async () => {
    for (const [name, part] of wanted) {
      if (isFresh(part)) continue;
      const stamp = stampOf(part);
      const since = Date.now();
      if (name === 'web') say('building the pages; this takes about a minute');
      await part.make().catch((error) => {
        if (error instanceof Sorry) throw error;
        throw new Sorry(`The ${name} could not be built.`, { why: error.message, next: 'mend the file named above, then start again' });
      });
      // Written last and from the hash taken before: an edit made while building leaves the build stale, not falsely fresh.
      writeStamp(join(part.out, '.stamp'), stamp);
      say(`built ${fromRoot(part.out)} in ${((Date.now() - since) / 1000).toFixed(1)} s`);
    }
  });
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  await main(async () => {
    await ensureInstalled();
    await ensureBuilt();
  });
}
