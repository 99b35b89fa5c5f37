import type { FastifyBaseLogger } from 'fastify';

export interface Watch {
  readonly everyMs: number;
  /** Stood still for longer, it is told. */
  readonly longestMs: number;
}

/**
 * Tells the log that the event loop stood still, since nobody was answered meanwhile and no other
 * line says why (criteria F26). By a clock that nobody can set.
 *
 * @returns Stops it
 */
export function watchLoop(log: Pick<FastifyBaseLogger, 'error'>, { everyMs, longestMs }: Watch): () => void {
  let since = performance.now();
  const timer = setInterval(() => {
    const now = performance.now();
    const stillMs = Math.round(now - since - everyMs);
    if (stillMs > longestMs) log.error({ stillMs }, 'the event loop stood still: nobody was answered');
    since = now;
  }, everyMs);
  timer.unref();
  return () => clearInterval(timer);
}
