import type { FastifyInstance } from 'fastify';
import type { Frame } from '../context.ts';
import { resolveSession } from '../services/session.ts';
import { cookieName } from '../services/session-cookie.ts';

/** Finds out who is asking, once for each request, before anything else is decided. */
export function readSessions(app: FastifyInstance, frame: Frame): void {
  app.decorateRequest('who', null);
  app.addHook('onRequest', async (request) => {
    const token = request.cookies[cookieName(frame.config)];
    request.who = token === undefined ? null : resolveSession(frame.store, frame.clock.now(), token);
  });
}
