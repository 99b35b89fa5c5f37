import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root } from '../scripts/lib.mjs';
import { table } from './measure.ts';
import { startServer } from './server-process.ts';

const minutesMs = (minutes: number): number => minutes * 60 * 1_000;

/** npm ends a moment before the server does; the next start must not meet the last one's lock. */
async function gone(origin: string): Promise<void> {
  for (let tries = 0; tries < 100; tries += 1) {
    const answers = await fetch(`${origin}/livez`).then(
      () => true,
      () => false,
    );
    if (!answers) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`${origin} still answers after it was stopped`);
}

/** One `npm start` in a folder, up to its printed address. */
async function startIn(cwd: string, env: Readonly<Record<string, string>>): Promise<number> {
  const server = await startServer(['npm', 'start'], { cwd, env, waitMs: minutesMs(10) });
  const answer = await fetch(`${server.origin}/livez`);
  if (!answer.ok) throw new Error(`/livez answered ${answer.status}`);
  await server.stop();
  await gone(server.origin);
  return server.startedMs;
}

/**
 * `npm start` on a clean clone with no node_modules, then again. The first is measured twice: with nothing kept from before, so that
 * SQLite is compiled, and with the compiled file kept. The floor is a bare `npm ci` without scripts, in the same run.
 */
export async function benchStart({ compile }: { compile: boolean }): Promise<string> {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-start-'));
  const clone = join(dir, 'clone');
  const fresh = (): void => rmSync(join(clone, 'node_modules'), { recursive: true, force: true });
  const env = (cache: string): Record<string, string> => ({ XDG_CACHE_HOME: join(dir, cache), DATA_DIR: join(dir, `data-${cache}`) });
  try {
    execFileSync('git', ['clone', '--quiet', '--depth', '1', `file://${root}`, clone]);
    const since = performance.now();
    execFileSync('npm', ['ci', '--ignore-scripts', '--include=dev', '--loglevel=error'], { cwd: clone, stdio: 'ignore' });
    const floorMs = performance.now() - since;
    const rows: [string, number, number][] = [['npm ci alone', floorMs / 1_000, 1]];
    const add = (name: string, ms: number): void => void rows.push([name, ms / 1_000, ms / floorMs]);
    const kept = existsSync(join(process.env.XDG_CACHE_HOME ?? join(process.env.HOME ?? dir, '.cache'), 'middenry'));
    if (compile) {
      fresh();
      add('npm start, nothing kept', await startIn(clone, env('a')));
    }
    if (compile || kept) {
      fresh();
      const again = compile ? { ...env('a'), DATA_DIR: join(dir, 'data-b') } : { DATA_DIR: join(dir, 'data-b') };
      add('npm start, no node_modules, compiled SQLite kept', await startIn(clone, again));
      add('npm start, second time', await startIn(clone, again));
    }
    return table(['what', 's', 'x npm ci'], rows);
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}
