import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { filesUnder, hashOf, root, run, runQuietly, Sorry, withLock } from './lib.mjs';

let dir: string;
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'lib-'));
});
afterEach(() => rmSync(dir, { recursive: true }));

const lockName = `test-${process.pid}`;
const lockFile = join(root, `.stamp-lock-${lockName}`);
afterEach(() => rmSync(lockFile, { force: true }));

describe('withLock()', () => {
  test('lets one piece of work in at a time', async () => {
    let inside = 0;
    let most = 0;
    const work = async () => {
      inside += 1;
      most = Math.max(most, inside);
      await new Promise((resolve) => setTimeout(resolve, 20));
      inside -= 1;
    };
    await Promise.all([withLock(lockName, work), withLock(lockName, work), withLock(lockName, work)]);
    expect(most).toBe(1);
    expect(existsSync(lockFile)).toBe(false);
  });

  test('takes over a lock whose owner is gone', async () => {
    const { output } = runQuietly(process.execPath, ['-p', 'process.pid']);
    writeFileSync(lockFile, output.trim());
    expect(await withLock(lockName, async () => 'done', { waitMs: 1_000 })).toBe('done');
  });

  test('gives up with words when the owner never ends', async () => {
    writeFileSync(lockFile, String(process.pid));
    await expect(withLock(lockName, async () => 'done', { waitMs: 300 })).rejects.toThrow(/delete \.stamp-lock-test/);
  });

  test('lets go when the work fails', async () => {
    const work = async () => {
      throw new Sorry('no');
    };
    await expect(withLock(lockName, work)).rejects.toThrow('no');
    expect(existsSync(lockFile)).toBe(false);
  });
});

describe('filesUnder() and hashOf()', () => {
  beforeEach(() => {
    mkdirSync(join(dir, 'src/node_modules'), { recursive: true });
    writeFileSync(join(dir, 'src/a.ts'), 'a');
    writeFileSync(join(dir, 'src/node_modules/b.ts'), 'b');
  });

  test('leave out what is installed or built', () => {
    expect(filesUnder(['src', 'absent'], dir)).toEqual([join(dir, 'src/a.ts')]);
  });

  test('change with a name, a content or a word', () => {
    const before = hashOf(filesUnder(['src'], dir), 'x');
    expect(hashOf(filesUnder(['src'], dir), 'x')).toBe(before);
    expect(hashOf(filesUnder(['src'], dir), 'y')).not.toBe(before);
    writeFileSync(join(dir, 'src/a.ts'), 'b');
    expect(hashOf(filesUnder(['src'], dir), 'x')).not.toBe(before);
  });
});

describe('run()', () => {
  test('gives the exit code of the program', async () => {
    expect(await run(process.execPath, ['-e', 'process.exit(3)'])).toBe(3);
  });

  test('says so when there is no such program', async () => {
    await expect(run('no-such-program-here', [])).rejects.toThrow(/ENOENT/);
  });
});

test('Sorry says what, why and what next', () => {
  const error = new Sorry('It stopped.', { why: 'no disk', next: 'make room', exitCode: 4 });
  expect(error.message).toBe('It stopped.\nWhy: no disk\nNext: make room');
  expect(error.exitCode).toBe(4);
});
