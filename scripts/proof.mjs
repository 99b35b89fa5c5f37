// `npm run proof`: the long proofs (hours of races, hundreds of kills) that `npm test` runs only in their short form.
import { join } from 'node:path';
import { ensureBuilt } from './build.mjs';
import { ensureInstalled } from './install.mjs';
import { main, root, run } from './lib.mjs';

await main(async () => {
  await ensureInstalled();
  await ensureBuilt();
  process.env.PROOF = 'long';
  const vitest = join(root, 'node_modules/vitest/vitest.mjs');
  process.exitCode = await run(process.execPath, [vitest, 'run', '--project=proof', ...process.argv.slice(2)]);
});
