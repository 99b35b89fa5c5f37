import { RELEASE, RELEASE_HEADER } from '@middenry/contract';
import type { FastifyInstance } from 'fastify';
import { refuse } from '../refusal.ts';

const SAFE = new Set(['GET', 'HEAD', 'OPTIONS']);

/** Takes nothing from pages that are more than one release older or newer (criteria B23); a program that says nothing is taken at its word. */
export function refuseOldPages(app: FastifyInstance): void {
  app.addHook('onRequest', async (request) => {
    const said = request.headers[RELEASE_HEADER];
    if (said === undefined || SAFE.has(request.method) || request.routeOptions.config.reads) return;
    const release = Number(said);
    if (!Number.isInteger(release) || Math.abs(release - RELEASE) > 1) throw refuse('update-first');
  });
}

declare module 'fastify' {
  interface FastifyContextConfig {
    /** The route changes nothing, though it is no GET. */
    reads?: true | undefined;
  }
}
