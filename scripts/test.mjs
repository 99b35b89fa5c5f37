// `npm test`: installs, builds, makes sure of a browser, runs every test and ends with "N passed, M failed".
// `npm test -- tests/api` narrows by path; other vitest options pass through.
import { existsSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { ensureBuilt } from './build.mjs';
import { chromiumMissing, ensureChromium } from './chromium.mjs';
import { ensureInstalled } from './install.mjs';
import { main, root, run } from './lib.mjs';
import { tally } from './tally.mjs';

const reportDir = join(root, 'build');
const report = join(reportDir, `test-report-${process.pid}.json`);
const projects = ['unit', 'api', 'tidy', 'browser'];

async function runTests(args) {
  mkdirSync(reportDir, { recursive: true });
  const chosen = args.some((arg) => arg.startsWith('--project')) ? [] : projects.map((name) => `--project=${name}`);
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const vitest = join(root, 'node_modules/vitest/vitest.mjs');
  return run(process.execPath, [vitest, 'run', ...chosen, ...reporters, ...args]);
}

/** Builds; a build that fails is one failure more, and the tests that need none of it still run. */
async function buildFailure() {
  try {
    await ensureBuilt();
  } catch (error) {
    return error.message;
  }
}

await main(async () => {
  const args = process.argv.slice(2);
  process.on('exit', () => existsSync(report) && rmSync(report));
  let result = { passed: 0, failed: 1, notes: ['the tests did not start'] };
  try {
    await ensureInstalled();
    const unbuilt = await buildFailure();
    const chromium = await ensureChromium();
    if (chromium) process.env.CHROMIUM_PATH = chromium;
    const exitCode = await runTests(args);
    result = tally(report, exitCode, { filtered: args.some((arg) => /^(-t|--testNamePattern)/.test(arg)) });
    if (!chromium) result.notes.push(chromiumMissing);
    if (unbuilt) {
      result.failed += 1;
      result.notes.push(unbuilt);
    }
  } finally {
    for (const note of result.notes) console.error(`middenry: ${note}`);
    process.exitCode = result.failed > 0 ? 1 : 0;
    // Whatever goes wrong above prints before this: the count is the last line.
    process.on('exit', () => console.log(`${result.passed} passed, ${result.failed} failed`));
  }
});
