import type { FastifyInstance, FastifyReply } from 'fastify';
import type { Config } from '../config.ts';

const YEAR_SECONDS = 31_536_000;

/** Headers of every answer, pages and files included. */
export function setCommonHeaders(app: FastifyInstance, config: Config): void {
  app.addHook('onRequest', async (_request, reply) => putCommonHeaders(reply, config));
}

export function putCommonHeaders(reply: FastifyReply, config: Config): void {
  reply.header('x-content-type-options', 'nosniff');
  // `no-referrer` would make forms without script send `Origin: null`, which nobody could tell from a stranger's.
  reply.header('referrer-policy', 'same-origin');
  reply.header('cross-origin-opener-policy', 'same-origin');
  reply.header('cross-origin-resource-policy', 'same-origin');
  reply.header('x-frame-options', 'DENY');
  reply.header('permissions-policy', 'camera=(self), geolocation=(), microphone=(), payment=(), usb=()');
  if (config.secure) reply.header('strict-transport-security', `max-age=${YEAR_SECONDS}; includeSubDomains`);
}

/** An answer that is no page may load and do nothing. */
export const NO_PAGE_POLICY = "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

/** An answer of the API is never a page. Set here and at problems only, since on a service worker it would become the worker's own. */
export function setApiHeaders(app: FastifyInstance): void {
  app.addHook('onRequest', async (_request, reply) => {
    reply.header('content-security-policy', NO_PAGE_POLICY);
    reply.header('cache-control', 'no-store');
  });
}
