// `npm run bench`: speeds of this machine as ratios to floors measured in the same run. Figures, not verdicts.
import { join } from 'node:path';
import { ensureBuilt } from './build.mjs';
import { ensureInstalled } from './install.mjs';
import { main, root, run } from './lib.mjs';

await main(async () => {
  await ensureInstalled();
  await ensureBuilt();
  process.exitCode = await run(process.execPath, [join(root, 'node_modules/tsx/dist/cli.mjs'), 'bench/main.ts', ...process.argv.slice(2)]);
});
