/** The real server, as it was built, as a process of its own on a folder and a port of its own. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const root = new URL('../../', import.meta.url).pathname;
const LONGEST_MS = 60_000;

export interface ServerProcess {
  readonly child: ChildProcess;
  readonly dataDir: string;
  readonly url: string;
  output(): string;
  /** Exit code, or the signal's name. */
  readonly ended: Promise<number | string>;
}

const started = new Set<ChildProcess>();
process.on('exit', () => {
  for (const child of started) child.kill('SIGKILL');
});

export const freshDataDir = (): string => mkdtempSync(join(tmpdir(), 'middenry-server-'));
export const dropDataDir = (dir: string): void => rmSync(dir, { recursive: true, force: true });

interface Launch {
  readonly dataDir: string;
  readonly env?: Readonly<Record<string, string>>;
  /** A program in front, such as a tracer. */
  readonly under?: readonly string[];
  readonly flags?: readonly string[];
}

function launch({ dataDir, env = {}, under = [], flags = [] }: Launch) {
  const words = [...under, process.execPath, '--no-deprecation', join(root, 'apps/api/build/server.mjs'), ...flags];
  const { PATH = '', HOME = '' } = process.env;
  const child = spawn(words[0]!, words.slice(1), {
    cwd: root,
    env: { PATH, HOME, PORT: '0', DATA_DIR: dataDir, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  started.add(child);
  let text = '';
  const keep = (piece: Buffer) => {
    text += piece.toString();
  };
  for (const stream of [child.stdout!, child.stderr!]) stream.on('data', keep);
  const ended = new Promise<number | string>((resolve) => {
    child.once('close', (code, signal) => {
      started.delete(child);
      resolve(code ?? signal ?? 'nothing');
    });
  });
  return { child, dataDir, ended, output: () => text };
}

/** A server that has said its address. */
export async function startServer(options: Launch): Promise<ServerProcess> {
  const server = launch(options);
  const until = Date.now() + LONGEST_MS;
  for (;;) {
    const url = /^middenry: (http:\S+)\/$/m.exec(server.output())?.[1];
    if (url !== undefined) return { ...server, url };
    if (Date.now() > until || server.child.exitCode !== null) {
      server.child.kill('SIGKILL');
      throw new Error(`Cannot start the server: ${server.output()}`);
    }
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
}

/** A start that is expected to be refused: its exit code, its words and how long it took. */
export async function startRefused(options: Launch): Promise<{ code: number | string; words: string; ms: number }> {
  const began = performance.now();
  const server = launch(options);
  const timer = setTimeout(() => server.child.kill('SIGKILL'), LONGEST_MS);
  const code = await server.ended;
  clearTimeout(timer);
  return { code, words: server.output(), ms: performance.now() - began };
}
