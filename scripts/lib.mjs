// What every script here shares. Only `node:` modules: these files run before anything is installed.
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = dirname(dirname(fileURLToPath(import.meta.url)));

/** A failure that a person can act on: what happened, why, what to do next. */
export class Sorry extends Error {
  constructor(what, { why = '', next = '', exitCode = 1 } = {}) {
    super([what, why && `Why: ${why}`, next && `Next: ${next}`].filter(Boolean).join('\n'));
    this.exitCode = exitCode;
  }
}

export const say = (text) => console.log(`middenry: ${text}`);

/** Runs a script's body; a `Sorry` is printed as words, anything else with its stack, and both leave a non-zero exit code. */
export async function main(body) {
  try {
    await body();
  } catch (error) {
    console.error(error instanceof Sorry ? `middenry: ${error.message}` : error);
    process.exitCode = error?.exitCode ?? 1;
  }
}

/**
 * Runs a program and gives its exit code; a signal sent to us is passed on to it.
 * `quiet` keeps what it prints back unless it fails.
 */
export function run(command, args, { cwd = root, env = process.env, quiet = false } = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, { cwd, env, stdio: quiet ? ['ignore', 'pipe', 'pipe'] : 'inherit' });
    const kept = [];
    for (const stream of [child.stdout, child.stderr]) stream?.on('data', (part) => kept.push(part));
    const pass = (signal) => child.kill(signal);
    const leave = () => child.kill('SIGKILL');
    for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, pass);
    process.on('exit', leave);
    const done = (settle) => {
      for (const signal of ['SIGINT', 'SIGTERM']) process.off(signal, pass);
      process.off('exit', leave);
      settle();
    };
    child.once('error', (error) => done(() => reject(error)));
    child.once('close', (code, signal) => {
      if (code !== 0 && kept.length > 0) console.error(Buffer.concat(kept).toString('utf8'));
      done(() => resolve(code ?? 128 + (signal === 'SIGINT' ? 2 : 15)));
    });
  });
}

/** Runs a program quietly and gives `{ status, output }`. */
export function runQuietly(command, args, { cwd = root, env = process.env } = {}) {
  const result = spawnSync(command, args, { cwd, env, encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 });
  return { status: result.error ? 127 : (result.status ?? 1), output: `${result.stdout ?? ''}${result.stderr ?? ''}` };
}

/** Runs npm itself by the file that started us where there is one, so that no shell is needed. */
export function npm(args, options) {
  const file = process.env.npm_execpath;
  return file?.endsWith('.js') ? run(process.execPath, [file, ...args], options) : run('npm', args, options);
}

const skippedDirs = new Set(['node_modules', 'build', '.svelte-kit', '.git', 'data', 'coverage']);

/** All files below the given paths (files or directories, from the root), sorted; built and installed things left out. */
export function filesUnder(paths, base = root) {
  const found = [];
  const walk = (path) => {
    if (!existsSync(path)) return;
    if (statSync(path).isFile()) return found.push(path);
    for (const entry of readdirSync(path, { withFileTypes: true })) {
      const below = join(path, entry.name);
      if (entry.isDirectory() && !skippedDirs.has(entry.name)) walk(below);
      else if (entry.isFile()) found.push(below);
    }
  };
  for (const path of paths) walk(join(base, path));
  return found.sort();
}

export const fromRoot = (path) => relative(root, path).split(sep).join('/');

/** One hash over the names and contents of files, and any further words. */
export function hashOf(files, ...words) {
  const hash = createHash('sha256');
  for (const file of files)
    hash
      .update(`${fromRoot(file)}\0`)
      .update(readFileSync(file))
      .update('\0');
  for (const word of words) hash.update(`${word}\0`);
  return hash.digest('hex');
}

export function readStamp(file) {
  return existsSync(file) ? readFileSync(file, 'utf8').trim() : '';
}

export function writeStamp(file, stamp) {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, `${stamp}\n`);
}

const isAlive = (pid) => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
};

/**
 * Lets one process at a time do `work`. Two terminals that install or build at once would tear each other's files.
 * A lock whose owner is gone is taken over.
 */
export async function withLock(name, work, { waitMs = 600_000 } = {}) {
  const file = join(root, `.stamp-lock-${name}`);
  const until = Date.now() + waitMs;
  let told = false;
  for (;;) {
    try {
      writeFileSync(file, String(process.pid), { flag: 'wx' });
      break;
    } catch (error) {
      if (error.code !== 'EEXIST') throw error;
      const owner = Number(readStamp(file));
      if (owner > 0 && !isAlive(owner)) {
        rmSync(file, { force: true });
        continue;
      }
      if (Date.now() > until) {
        throw new Sorry(`Another ${name} has held its lock for ten minutes.`, {
          next: `stop process ${owner}, or delete ${fromRoot(file)}`,
        });
      }
      if (!told) say(`waiting for another ${name} (process ${owner}) to end`);
      told = true;
      await new Promise((resolve) => setTimeout(resolve, 250));
    }
  }
  const release = () => rmSync(file, { force: true });
  process.once('exit', release);
  try {
    return await work();
  } finally {
    process.off('exit', release);
    release();
  }
}

/** True where we may install Debian packages by ourselves: root, on Debian or a relative of it. */
export const mayApt = () => process.getuid?.() === 0 && existsSync('/etc/debian_version');

/** Installs Debian packages; gives whether it worked. */
export async function aptInstall(packages) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  say(`installing ${packages.join(', ')} with apt-get`);
  if ((await run('apt-get', ['update', '-qq'], { env })) !== 0) return false;
  return (await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], { env })) === 0;
}
