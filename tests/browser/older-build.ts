/** A build of these sources as an older release would have been: a tree of its own, with its number and its chunks. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const NEVER = new Set(['node_modules', 'build', '.svelte-kit', 'data']);
const TREES = ['apps', 'packages', 'scripts', 'seed', 'shared', 'migrations'];
const NUMBERED = ['packages/contract/src/release.ts', 'apps/web/src/lib/api/release.ts'];

/** Installed packages as they are, and our own from this tree. */
function linkPackages(dir: string): void {
  const [from, to] = [join(root, 'node_modules'), join(dir, 'node_modules')];
  mkdirSync(join(to, '@middenry'), { recursive: true });
  for (const name of readdirSync(from)) if (name !== '@middenry' && name !== '.vite') symlinkSync(join(from, name), join(to, name));
  for (const name of readdirSync(join(dir, 'packages'))) symlinkSync(join(dir, 'packages', name), join(to, '@middenry', name));
}

function setRelease(dir: string, release: number): void {
  for (const name of NUMBERED) {
    const text = readFileSync(join(dir, name), 'utf8');
    const older = text.replace(/RELEASE = \d+;/, `RELEASE = ${release};`);
    if (older === text) throw new Error(`Cannot make an older build as ${name} no longer says its release`);
    writeFileSync(join(dir, name), older);
  }
}

/** @returns The tree; its server is apps/api/build/server.mjs */
export function makeOlderBuild(release: number): string {
  const dir = mkdtempSync(join(tmpdir(), `middenry-release-${release}-`));
  for (const tree of TREES)
    cpSync(join(root, tree), join(dir, tree), { recursive: true, filter: (path) => !NEVER.has(path.split('/').at(-1)!) });
  for (const file of readdirSync(root).filter((name) => name.endsWith('.json'))) cpSync(join(root, file), join(dir, file));
  linkPackages(dir);
  setRelease(dir, release);
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(dir, 'scripts/build.mjs')], { cwd: dir, encoding: 'utf8' });
  if (status !== 0) throw new Error(`Cannot build release ${release}: ${stdout}${stderr}`);
  return dir;
}
