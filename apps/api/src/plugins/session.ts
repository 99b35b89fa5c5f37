import type { FastifyInstance } from 'fastify';
import type { Frame } from '../context.ts';
import { isErased, resolveSession } from '../services/session.ts';
import { cookieName } from '../services/session-cookie.ts';

/** Finds out who is asking, once for each request, before anything else is decided. */
export function readSessions(app: FastifyInstance, frame: Frame): void {
  app.decorateRequest('who', null);
  app.decorateRequest('erased', false);
  app.addHook('onRequest', async (request) => {
    const token = request.cookies[cookieName(frame.config)];
    request.who = token === undefined ? null : resolveSession(frame.store, frame.clock.now(), token);
    if (token !== undefined && request.who === null) request.erased = isErased(frame.store, token);
  });
}
