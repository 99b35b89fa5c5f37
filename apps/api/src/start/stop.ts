import type { FastifyInstance } from 'fastify';
import { closeInOrder } from '../db/open-note.ts';
import type { Store } from '../db/store.ts';
import type { Lock } from './lock.ts';

const LONGEST_MS = 10_000;

/** What one server holds while it runs. */
export interface Running {
  readonly app: FastifyInstance;
  readonly store: Store;
  readonly lock: Lock;
}

/** Ends in order: nothing new, what runs is finished, the log of the store is folded in, the folder is free again. */
export async function stop({ app, store, lock }: Running): Promise<void> {
  // Streams never end by themselves.
  app.events.close();
  await app.drain.stop(LONGEST_MS);
  await app.close();
  closeInOrder(store);
  lock.release();
}

/** Stops at SIGTERM or Ctrl-C; a second signal, or one before anything runs, does not wait. */
export function stopOnSignals(runningNow: () => Running | undefined): void {
  let asked = false;
  const onSignal = () => {
    const running = runningNow();
    if (asked || running === undefined) process.exit(1);
    asked = true;
    stop(running).then(
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
