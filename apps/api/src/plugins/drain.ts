import type { FastifyInstance } from 'fastify';
import { refuse } from '../refusal.ts';

const RETRY_SECONDS = 5;

/** Requests that are being answered, so that a stop can wait for them. */
export interface Drain {
  /** From now on every new request is told to come back; resolves when the last one running has ended, or after the time given. */
  stop(longestMs: number): Promise<void>;
}

export function countRequests(app: FastifyInstance): Drain {
  let running = 0;
  let stopping = false;
  let whenIdle: () => void = () => undefined;
  app.addHook('onRequest', async (request, reply) => {
    running += 1;
    // Fastify's own hook stays silent when the phone went away before the answer was whole; that is an end too.
    const end = once(() => {
      running -= 1;
      if (stopping && running === 0) whenIdle();
    });
    reply.raw.once('finish', end);
    reply.raw.once('close', end);
    if (!stopping) return;
    reply.header('connection', 'close');
    request.log.info({ incident: request.id }, 'refused while stopping');
    throw refuse('unavailable', { retryAfterSeconds: RETRY_SECONDS });
  });
  return {
    async stop(longestMs) {
      stopping = true;
      if (running === 0) return;
      await new Promise<void>((resolve) => {
        whenIdle = resolve;
        setTimeout(resolve, longestMs).unref();
      });
    },
  };
}

function once(act: () => void): () => void {
  let done = false;
  return () => {
    if (!done) act();
    done = true;
  };
}
