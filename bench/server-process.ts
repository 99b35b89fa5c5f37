import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import { root } from '../scripts/lib.mjs';

const running = new Set<ChildProcess>();
process.on('exit', () => {
  for (const child of running) child.kill('SIGKILL');
});

export interface RunningServer {
  readonly origin: string;
  /** From the command to the printed address [ms]. */
  readonly startedMs: number;
  readonly pid: number;
  stop(): Promise<void>;
}

const address = /https?:\/\/[\w.:[\]-]+/g;

/** Starts a program and waits until it prints the address it listens on. */
export function startServer(
  command: readonly string[],
  { env = {}, cwd = root, waitMs = 60_000 }: { env?: Readonly<Record<string, string>>; cwd?: string; waitMs?: number } = {},
): Promise<RunningServer> {
  const since = performance.now();
  const [program = '', ...args] = command;
  const child = spawn(program, args, {
    cwd,
    env: { ...process.env, PORT: '0', HOST: '127.0.0.1', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  running.add(child);
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  void ended.then(() => running.delete(child));
  const stop = async (): Promise<void> => {
    child.kill('SIGTERM');
    await ended;
  };
  return new Promise((resolve, reject) => {
    let text = '';
    const late = setTimeout(() => {
      child.kill('SIGKILL');
      reject(new Error(`${command.join(' ')} printed no address in ${waitMs} ms:\n${text.slice(-2_000)}`));
    }, waitMs);
    const read = (part: Buffer): void => {
      text += part.toString('utf8');
      const origin = text.match(address)?.find((found) => /127\.0\.0\.1|localhost/.test(found));
      if (!origin) return;
      clearTimeout(late);
      resolve({ origin, startedMs: performance.now() - since, pid: child.pid ?? 0, stop });
    };
    child.stdout.on('data', read);
    child.stderr.on('data', (part: Buffer) => {
      text += part.toString('utf8');
    });
    void ended.then(() => {
      clearTimeout(late);
      reject(new Error(`${command.join(' ')} ended before it listened:\n${text.slice(-2_000)}`));
    });
  });
}

/** What Node gives itself on a computer of 4 GB: with more it clears up later, and the same work seems to need more. */
export const AS_ON_4_GB = ['--max-old-space-size=1024', '--max-semi-space-size=8'] as const;

/** Our server as it is built. */
export const startOurs = (dataDir: string, nodeFlags: readonly string[] = []): Promise<RunningServer> =>
  startServer([process.execPath, ...nodeFlags, join(root, 'apps/api/build/server.mjs')], {
    env: { DATA_DIR: dataDir, NODE_ENV: 'production' },
    // It makes the demonstration first, which a busy machine takes its time over.
    waitMs: 300_000,
  });
