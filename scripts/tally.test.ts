import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { tally } from './tally.mjs';

let dir: string;
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'tally-'));
});
afterEach(() => rmSync(dir, { recursive: true }));

const file = (status: string, ...tests: string[]) => ({
  name: 'a.test.ts',
  status,
  assertionResults: tests.map((state, index) => ({ fullName: `test ${index}`, status: state })),
});

function reportOf(...testResults: ReturnType<typeof file>[]) {
  const path = join(dir, 'report.json');
  writeFileSync(path, JSON.stringify({ testResults }));
  return path;
}

describe('tally()', () => {
  test('counts passed and failed tests over all files', () => {
    const report = reportOf(file('passed', 'passed', 'passed'), file('failed', 'passed', 'failed'));
    expect(tally(report, 1)).toEqual({ passed: 3, failed: 1, notes: [] });
  });

  test.each(['pending', 'skipped', 'todo', 'disabled'])('counts a test that is %s as failed', (status) => {
    expect(tally(reportOf(file('passed', 'passed', status)), 0)).toMatchObject({ passed: 1, failed: 1 });
  });

  test('leaves unrun tests out when they were chosen by name', () => {
    expect(tally(reportOf(file('passed', 'passed', 'skipped')), 0, { filtered: true })).toEqual({ passed: 1, failed: 0, notes: [] });
  });

  test('counts a file that could not load as one failure', () => {
    expect(tally(reportOf(file('passed', 'passed'), file('failed')), 1)).toMatchObject({ passed: 1, failed: 1 });
  });

  test('counts a file whose tests all passed but whose teardown broke as one failure', () => {
    expect(tally(reportOf(file('failed', 'passed')), 1)).toMatchObject({ passed: 1, failed: 1 });
  });

  test('fails when vitest fails although every test passed', () => {
    expect(tally(reportOf(file('passed', 'passed')), 1)).toMatchObject({ passed: 1, failed: 1 });
  });

  test('fails when nothing ran', () => {
    expect(tally(reportOf(), 0)).toMatchObject({ passed: 0, failed: 1 });
  });

  test('fails when there is no report', () => {
    expect(tally(join(dir, 'absent.json'), 0)).toMatchObject({ passed: 0, failed: 1 });
  });
});
