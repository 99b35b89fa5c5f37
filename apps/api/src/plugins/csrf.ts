import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { Config } from '../config.ts';
import { refuse } from '../refusal.ts';
import { pageOrigin } from '../web/origin.ts';

const SAFE = new Set(['GET', 'HEAD', 'OPTIONS']);
const WITH_BODY = new Set(['POST', 'PUT', 'PATCH']);

/**
 * Keeps other sites from changing anything with a visitor's cookie: where a request comes from must
 * be ourselves, and its body must be JSON, which no form can send without asking first.
 */
export function refuseCrossSite(app: FastifyInstance, config: Config): void {
  app.addHook('onRequest', async (request) => {
    if (SAFE.has(request.method)) return;
    if (!comesFromUs(request, config)) throw refuse('cross-site');
    if (!WITH_BODY.has(request.method)) return;
    // No form can send a picture or a zip as its whole body either.
    if (request.routeOptions.config.takes === 'image') {
      if (!isImage(request.headers['content-type'])) throw refuse('bad-request', { detail: 'The content type must be that of a picture.' });
    } else if (request.routeOptions.config.takes === 'zip') {
      if (!isZip(request.headers['content-type'])) throw refuse('bad-request', { detail: 'The content type must be application/zip.' });
    } else if (!isJson(request.headers['content-type']))
      throw refuse('bad-request', { detail: 'The content type must be application/json.' });
  });
}

function comesFromUs(request: FastifyRequest, config: Config): boolean {
  const { origin, host } = request.headers;
  const site = request.headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return false;
  // A program without a browser sends neither header, and no cookie that a stranger could borrow.
  return origin === undefined || (origin !== 'null' && origin === pageOrigin(config.publicUrl, host));
}

const isImage = (contentType: string | undefined): boolean => /^image\/[\w.+-]+\s*(;|$)/i.test(contentType ?? '');
const isZip = (contentType: string | undefined): boolean => /^application\/zip\s*(;|$)/i.test(contentType ?? '');
const isJson = (contentType: string | undefined): boolean => /^application\/json\s*(;|$)/i.test(contentType ?? '');

declare module 'fastify' {
  interface FastifyContextConfig {
    /** What the route's body is, where it is not JSON. */
    takes?: 'image' | 'zip' | undefined;
  }
}
