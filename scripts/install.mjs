// Puts node_modules in step with package-lock.json, and SQLite's compiled part into it. Does nothing when that is already so.
import { copyFileSync, existsSync, mkdirSync, readFileSync, renameSync, symlinkSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { aptInstall, fromRoot, hashOf, mayApt, npm, readStamp, root, runQuietly, Sorry, say, withLock, writeStamp } from './lib.mjs';

const modules = join(root, 'node_modules');
const stampFile = join(modules, '.stamp-install');
const addonFile = join(modules, 'better-sqlite3/build/Release/better_sqlite3.node');
const oldestNode = [20, 19];

const readJson = (file) => JSON.parse(readFileSync(file, 'utf8'));

function manifests() {
  const lock = readJson(join(root, 'package-lock.json'));
  const folders = Object.keys(lock.packages).filter((path) => !path.includes('node_modules'));
  return { lock, folders, files: folders.map((folder) => join(root, folder, 'package.json')).filter(existsSync) };
}

/**
 * True when node_modules already holds what the lock asks for, whoever installed it.
 * npm leaves its own account of what it put there; only what it skipped as foreign to this machine may be missing.
 */
function isInStep({ lock, folders }) {
  const accountFile = join(modules, '.package-lock.json');
  if (!existsSync(accountFile)) return false;
  const account = readJson(accountFile).packages;
  for (const folder of folders) {
    const wanted = readJson(join(root, folder, 'package.json'));
    for (const kind of ['dependencies', 'devDependencies']) {
      if (!sameEntries(wanted[kind], lock.packages[folder][kind])) return false;
    }
  }
  return Object.entries(lock.packages).every(([path, entry]) => {
    if (!path.includes('node_modules')) return true;
    const have = account[path];
    if (!have) return entry.optional === true || entry.devOptional === true || entry.peer === true;
    return have.link === entry.link && have.version === entry.version && have.integrity === entry.integrity && existsSync(join(root, path));
  });
}

function sameEntries(one = {}, other = {}) {
  const names = Object.keys(one);
  return names.length === Object.keys(other).length && names.every((name) => one[name] === other[name]);
}

/** Loads the compiled file in a process of its own: a wrong one may crash instead of throwing. */
function addonLoads() {
  if (!existsSync(addonFile)) return false;
  const probe = "const D=require('better-sqlite3');const d=new D(':memory:');if(d.prepare('select 1+1 as n').get().n!==2)process.exit(1)";
  return runQuietly(process.execPath, ['-e', probe]).status === 0;
}

function cachedAddon() {
  const { version } = readJson(join(modules, 'better-sqlite3/package.json'));
  const cache = process.env.XDG_CACHE_HOME || join(homedir(), '.cache');
  const name = `better-sqlite3-${version}-abi${process.versions.modules}-${process.platform}-${process.arch}.node`;
  return join(cache, 'middenry', name);
}

/** Copies by way of a temporary name, so that a half-written file is never found under the final one. */
function copyWhole(from, to) {
  mkdirSync(dirname(to), { recursive: true });
  copyFileSync(from, `${to}.${process.pid}`);
  renameSync(`${to}.${process.pid}`, to);
}

/** Node's own C headers beside the running Node, if they are there: then the compile needs no download. */
function headersHere() {
  const prefix = dirname(dirname(process.execPath));
  const file = join(prefix, 'include/node/node_version.h');
  if (!existsSync(file)) return {};
  const text = readFileSync(file, 'utf8');
  const part = (name) => text.match(new RegExp(`#define NODE_${name}_VERSION (\\d+)`))?.[1];
  const same = `${part('MAJOR')}.${part('MINOR')}.${part('PATCH')}` === process.versions.node;
  return same ? { npm_config_nodedir: prefix } : {};
}

async function ensureCompiler() {
  const missing = ['g++', 'make', 'python3'].filter((tool) => runQuietly(tool, ['--version']).status !== 0);
  if (missing.length === 0) return;
  if (mayApt() && (await aptInstall(['build-essential', 'python3']))) return;
  throw new Sorry('SQLite cannot be compiled on this machine.', {
    why: `${missing.join(', ')} not found`,
    next: 'install a C++ compiler, make and Python 3 (Debian: sudo apt-get install build-essential python3), then start again',
  });
}

async function ensureAddon() {
  if (addonLoads()) return;
  const cached = cachedAddon();
  if (existsSync(cached)) {
    copyWhole(cached, addonFile);
    if (addonLoads()) return say('SQLite taken from the cache');
    say('the cached SQLite does not load here; compiling it again');
  }
  await ensureCompiler();
  say('compiling SQLite, once per machine; nothing more is printed for a minute or two, five on a busy machine');
  const code = await npm(['rebuild', 'better-sqlite3', '--loglevel=error'], {
    env: { ...process.env, ...headersHere(), npm_config_build_from_source: 'true' },
  });
  if (code !== 0 || !addonLoads()) {
    throw new Sorry('SQLite could not be compiled.', { why: 'see the lines above', next: 'npm rebuild better-sqlite3' });
  }
  try {
    copyWhole(addonFile, cached);
  } catch (error) {
    say(`could not keep a copy for next time (${error.code ?? error.message}); that does no harm`);
  }
}

function linkCommand() {
  const link = join(modules, '.bin/middenry');
  if (!existsSync(link)) symlinkSync('../../scripts/middenry.mjs', link);
}

function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > oldestNode[0] || (major === oldestNode[0] && minor >= oldestNode[1])) return;
  throw new Sorry(`Node ${process.versions.node} is too old for Middenry.`, { next: `install Node ${oldestNode.join('.')} or newer` });
}

/** Installs if needed. Fast when nothing changed: one hash over the manifests and one file's presence. */
export async function ensureInstalled() {
  checkNode();
  const stampNow = () => hashOf([join(root, 'package-lock.json'), ...manifests().files], process.version);
  if (readStamp(stampFile) === stampNow() && existsSync(addonFile)) return;
  await withLock('install', async () => {
    if (!isInStep(manifests())) {
      say('installing what package-lock.json lists; this takes about a minute');
      // Scripts stay off: the one package that needs its script is built, or taken from the cache, just below.
      const code = await npm(['ci', '--include=dev', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error']);
      if (code !== 0)
        throw new Sorry('npm could not install the packages.', { why: 'see the lines above', next: 'check the network, then start again' });
    }
    await ensureAddon();
    linkCommand();
    writeStamp(stampFile, stampNow());
  });
}

export const installStamp = () => readStamp(stampFile);
export const addonPath = () => fromRoot(addonFile);
