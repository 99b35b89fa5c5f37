import type { FastifyInstance } from 'fastify';
import type { Clock } from '../context.ts';
import type { Store } from '../db/store.ts';
import { localDateAt } from './local-time.ts';
import { modelInWorker } from './model-in-worker.ts';
import { workAhead } from './outlook-ahead.ts';
import { useModel, warmOutlooks } from './outlook-cache.ts';

/** Takes the model off the server's own thread, and works out what the first reader of the board will ask for. */
export function startOutlooks(app: FastifyInstance, store: Store, clock: Clock, cacheFile: string): void {
  const worker = modelInWorker(cacheFile);
  if (worker === null) return;
  useModel(store, worker.model, worker.trial, worker.ahead);
  const stopAhead = workAhead(store, clock, (binId) => app.events.again(binId));
  app.addHook('onClose', () => {
    stopAhead();
    return worker.stop();
  });
  app.addHook('onListen', async () => {
    const today = (timeZone: string) => localDateAt(clock.now(), timeZone);
    // What fails here fails again, and is told, when somebody asks for it.
    warmOutlooks({ store, today }).catch(() => undefined);
  });
}
