import type { FastifyInstance } from 'fastify';
import type { Store } from '../db/store.ts';
import type { Lock } from './lock.ts';

const LONGEST_MS = 10_000;

/** Ends in order: nothing new, what runs is finished, the log of the store is folded in, the folder is free again. */
export async function stop(app: FastifyInstance, store: Store, lock: Lock): Promise<void> {
  // Streams never end by themselves.
  app.events.close();
  await app.drain.stop(LONGEST_MS);
  await app.close();
  store.sqlite.pragma('wal_checkpoint(TRUNCATE)');
  store.sqlite.close();
  lock.release();
}

/** Stops at SIGTERM or Ctrl-C; a second signal does not wait. */
export function stopOnSignals(app: FastifyInstance, store: Store, lock: Lock): void {
  let asked = false;
  const onSignal = () => {
    if (asked) process.exit(1);
    asked = true;
    stop(app, store, lock).then(
      () => process.exit(0),
      (error: unknown) => {
        console.error(error);
        process.exit(1);
      },
    );
  };
  process.on('SIGTERM', onSignal);
  process.on('SIGINT', onSignal);
}
