import { existsSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { constants } from 'node:zlib';
import fastifyCompress from '@fastify/compress';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { readBody, toWebRequest, writeWebResponse } from './bridge.ts';
import { pageOrigin } from './origin.ts';

export interface WebOptions {
  /** Folder that the web's own adapter wrote: `client/`, `server/`. */
  readonly buildDir: string;
  /** Address that phones use, when there is a proxy in front. Without it only loopback names are answered. */
  readonly publicUrl?: string | undefined;
  /** False takes the pages off the phones that kept them. */
  readonly offline?: boolean;
}

const WORKER = 'service-worker.js';
const WORKER_OFF = 'worker-off.js';

/** A page ends when what it asks of the API has: the longest row may take two minutes, each other ten seconds. */
const PAGE_MS = 130_000;

/** Pages are made for one reader and sent once: a quick squeeze beats a small one. */
const PAGE_QUALITY = 4;

/** What the pages may use of this process: the API without a network hop. */
export interface WebPlatform {
  readonly inject: FastifyInstance['inject'];
}

interface PageServer {
  init(options: { env: Record<string, string>; read(file: string): ReadableStream }): Promise<void>;
  respond(request: Request, options: { getClientAddress(): string; platform: WebPlatform }): Promise<Response>;
}

/**
 * Serves the built pages from this process.
 *
 * Pages call the API through `inject`, so one request of a phone is one process and no socket
 * more. Static files go out pre-compressed; what carries a hash in its name is kept for a year.
 *
 * @throws {Error} when the web was not built
 */
export async function mountWeb(app: FastifyInstance, options: WebOptions): Promise<void> {
  const client = path.join(options.buildDir, 'client');
  if (!existsSync(client)) throw new Error(`Cannot serve the pages as they were not built: no folder ${client}. Run npm run build.`);
  const server = await startPages(path.join(options.buildDir, 'server'));
  await app.register(async (web) => {
    // A page's form may be of any kind; the pages read it themselves.
    web.removeAllContentTypeParsers();
    web.addContentTypeParser('*', (_request, payload, done) => done(null, payload));
    await web.register(fastifyCompress, { threshold: 1024, brotliOptions: { params: { [constants.BROTLI_PARAM_QUALITY]: PAGE_QUALITY } } });
    const off = options.offline === false;
    await web.register(fastifyStatic, {
      ...{ root: client, wildcard: false, preCompressed: true, index: false, setHeaders: cacheHeaders },
      globIgnore: off ? [WORKER] : [],
    });
    if (off) web.get(`/${WORKER}`, (_request, reply) => reply.sendFile(WORKER_OFF));
    const platform: WebPlatform = { inject: app.inject.bind(app) as FastifyInstance['inject'] };
    web.route({
      method: ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'],
      url: '/*',
      exposeHeadRoute: true,
      handlerTimeout: PAGE_MS,
      handler: (request, reply) => answerPage(server, platform, options.publicUrl, request, reply),
    });
  });
}

async function startPages(dir: string): Promise<PageServer> {
  const entry = (file: string) => import(pathToFileURL(path.join(dir, file)).href);
  const { Server } = (await entry('index.js')) as { Server: new (manifest: unknown) => PageServer };
  const { manifest } = (await entry('manifest.js')) as { manifest: unknown };
  const server = new Server(manifest);
  await server.init({
    env: {},
    read: (file) => {
      throw new Error(`Cannot read ${file} as pages hold no files of their own.`);
    },
  });
  return server;
}

async function answerPage(
  server: PageServer,
  platform: WebPlatform,
  publicUrl: string | undefined,
  request: FastifyRequest,
  reply: FastifyReply,
) {
  if (request.url === '/api' || request.url.startsWith('/api/')) return reply.callNotFound();
  const origin = pageOrigin(publicUrl, request.headers.host);
  if (origin === null)
    return reply
      .code(421)
      .type('text/plain; charset=utf-8')
      .send('This address is not served here. Use the address that the coordinator gave you.\n');
  const body = await readBody(request);
  if (body === 'too-large')
    return reply.code(413).type('text/plain; charset=utf-8').send('That is more than a form may hold. Nothing was saved.\n');
  const response = await server.respond(toWebRequest(request, origin, body), { getClientAddress: () => request.ip, platform });
  return writeWebResponse(response, reply);
}

function cacheHeaders(reply: { header(name: string, value: string): unknown }, file: string): void {
  const hashed = file.includes(`${path.sep}immutable${path.sep}`);
  reply.header('cache-control', hashed ? 'public, max-age=31536000, immutable' : 'no-cache');
  // A policy on service-worker.js would become the worker's own; the shell carries its own in a meta tag.
  if (file.includes('shell.html')) reply.header('content-security-policy', "frame-ancestors 'none'");
}
