// Turns vitest's JSON report into the two numbers of the last line. Kept apart so that a test can try to fool it.
import { existsSync, readFileSync } from 'node:fs';

/**
 * Counts what ran. A skipped test, a file that could not load, an error outside any test and an empty run are all failures:
 * none of them is evidence that something works.
 *
 * @param {string} reportFile vitest's JSON report
 * @param {number} exitCode vitest's own verdict
 * @param {{ filtered?: boolean }} options filtered: tests were chosen by name, so those left out are not counted
 * @returns {{ passed: number, failed: number, notes: string[] }}
 */
export function tally(reportFile, exitCode, { filtered = false } = {}) {
  if (!existsSync(reportFile)) return { passed: 0, failed: 1, notes: [`vitest ended with ${exitCode} and wrote no report`] };
  const report = JSON.parse(readFileSync(reportFile, 'utf8'));
  const notes = [];
  let passed = 0;
  let failed = 0;
  for (const file of report.testResults) {
    for (const test of file.assertionResults) {
      if (test.status === 'passed') passed += 1;
      else if (test.status === 'failed') failed += 1;
      else if (!filtered) {
        failed += 1;
        notes.push(`did not run: ${test.fullName}`);
      }
    }
    const brokenFile = file.status === 'failed' && !file.assertionResults.some((test) => test.status !== 'passed');
    if (brokenFile) {
      failed += 1;
      notes.push(`could not be run: ${file.name}`);
    }
  }
  if (passed + failed === 0) {
    failed = 1;
    notes.push('no test was found');
  }
  if (exitCode !== 0 && failed === 0) {
    failed = 1;
    notes.push(`every test passed, yet vitest ended with ${exitCode}: an error outside the tests, see above`);
  }
  return { passed, failed, notes };
}
