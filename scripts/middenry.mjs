#!/usr/bin/env node
// `npx middenry <command>`: installs and builds what is missing, then runs the command in apps/api/src/cli.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ensureBuilt } from './build.mjs';
import { ensureInstalled } from './install.mjs';
import { main, root, Sorry } from './lib.mjs';

await main(async () => {
  await ensureInstalled();
  await ensureBuilt(['api']);
  const cli = join(root, 'apps/api/build/cli.mjs');
  if (!existsSync(cli))
    throw new Sorry('There are no commands to run.', { why: 'apps/api/src/cli/main.ts is missing', next: 'git status' });
  process.env.NODE_ENV ??= 'production';
  process.argv = [process.argv[0], cli, ...process.argv.slice(2)];
  await import(pathToFileURL(cli).href);
});
