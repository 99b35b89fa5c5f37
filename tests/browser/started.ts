/** A built server as a process of its own, on a free loopback port. */
import { type ChildProcess, spawn } from 'node:child_process';
import { rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const serverFile = fileURLToPath(new URL('../../apps/api/build/server.mjs', import.meta.url));
const STARTED_WITHIN_MS = 60_000;

export interface Running {
  readonly origin: string;
  readonly dataDir: string;
  /** Everything the server has printed so far. */
  printed(): string;
  /** Nothing while it runs, and after a signal that it did not answer. */
  exitCode(): number | null;
  stop(signal?: NodeJS.Signals): Promise<void>;
}

export interface StartOptions {
  readonly dataDir: string;
  readonly flags?: readonly string[];
  readonly env?: Readonly<Record<string, string>>;
  readonly keepData?: boolean;
  /** Left out: the server of this build. */
  readonly serverFile?: string;
}

/** Starts the built server and waits for the address that it prints last. */
export async function startServer(options: StartOptions): Promise<Running> {
  const { dataDir } = options;
  const child = spawn(process.execPath, [options.serverFile ?? serverFile, ...(options.flags ?? [])], {
    env: { PATH: process.env.PATH ?? '', PORT: '0', DATA_DIR: dataDir, ...options.env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const killAtExit = () => child.kill('SIGKILL');
  process.once('exit', killAtExit);
  let text = '';
  child.stderr.on('data', (chunk: Buffer) => {
    text += chunk.toString();
  });
  const origin = await addressFrom(child, (chunk) => {
    text += chunk;
    return text;
  });
  const stop = async (signal: NodeJS.Signals = 'SIGTERM') => {
    if (child.exitCode === null && child.signalCode === null) {
      const ended = new Promise((resolve) => child.once('exit', resolve));
      child.kill(signal);
      await ended;
    }
    process.off('exit', killAtExit);
    if (!options.keepData) rmSync(dataDir, { recursive: true, force: true });
  };
  return { origin, dataDir, printed: () => text, exitCode: () => child.exitCode, stop };
}

function addressFrom(child: ChildProcess, add: (chunk: string) => string): Promise<string> {
  return new Promise((resolve, reject) => {
    const late = setTimeout(() => {
      // Left running it would outlive the tests.
      child.kill('SIGKILL');
      reject(new Error(`The server printed no address within a minute:\n${add('')}`));
    }, STARTED_WITHIN_MS);
    child.stdout?.on('data', (chunk: Buffer) => {
      const found = /middenry: (https?:\/\/\S+?)\/?\s*$/m.exec(add(chunk.toString()));
      if (!found) return;
      clearTimeout(late);
      resolve(found[1]!);
    });
    child.once('exit', (code) => {
      clearTimeout(late);
      reject(new Error(`The server ended with ${code} before it listened:\n${add('')}`));
    });
  });
}
