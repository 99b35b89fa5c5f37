/** What may refuse a start is asked first: to read in all of the server takes a second, and several on a small machine. */
import type { AddressInfo } from 'node:net';
import { type Config, readConfig } from './config.ts';
import { ensureDataDir } from './start/data-dir.ts';
import { lockDataDir } from './start/lock.ts';
import { type Running, stop, stopOnSignals } from './start/stop.ts';
import { StartRefusal } from './start-refusal.ts';

async function start(config: Config): Promise<Running> {
  ensureDataDir(config);
  const lock = lockDataDir(config.dataDir);
  const [{ serve }, { makeDemo }] = await Promise.all([import('./start/serve.ts'), import('../../../seed/index.ts')]);
  return serve({ config, lock, makeDemo, renewDemo: () => void startAnew(config).catch(giveUp) });
}

let running: Running | undefined;

/** Ends the old demonstration in order and puts a new one behind the same address. */
async function startAnew(config: Config): Promise<void> {
  if (running === undefined) return;
  const old = running;
  running = undefined;
  const { port } = old.app.server.address() as AddressInfo;
  console.log('middenry: making the demonstration anew');
  await stop(old);
  running = await start({ ...config, port, renewDemo: true });
}

function giveUp(error: unknown): never {
  // A refusal is one plain sentence; anything else is a fault of ours and keeps its stack.
  console.error(error instanceof StartRefusal ? `middenry: ${error.message}` : error);
  process.exit(error instanceof StartRefusal ? error.exitCode : 1);
}

stopOnSignals(() => running);
try {
  running = await start(readConfig(process.env, process.argv.slice(2)));
} catch (error) {
  giveUp(error);
}
