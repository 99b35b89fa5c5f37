import type { FastifyInstance } from 'fastify';

/**
 * Ends a request whose body is still not there after this time: whoever sends a byte a second holds a
 * connection that somebody else needs (criteria F18). A photo has the server's own, longer time.
 */
export function cutSlowBodies(app: FastifyInstance, longestMs: number): void {
  app.addHook('onRequest', async ({ raw, routeOptions }) => {
    if (routeOptions.config?.takes !== undefined || raw.complete || raw.socket === undefined) return;
    const timer = setTimeout(() => {
      if (!raw.complete) raw.destroy();
    }, longestMs);
    timer.unref();
    raw.once('end', () => clearTimeout(timer));
    raw.once('close', () => clearTimeout(timer));
  });
}
