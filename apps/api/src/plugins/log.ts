import { type FastifyInstance, type FastifyServerOptions, LogController } from 'fastify';

/**
 * A log that cannot hold a secret: no headers, no bodies, no addresses with their ids or tokens,
 * only which row of the route table answered whom how.
 */
export function logOptions(stream: NodeJS.WritableStream | undefined, everything: boolean): FastifyServerOptions {
  if (stream === undefined) return { logger: false };
  return {
    logController: new LogController({ disableRequestLogging: true }),
    logger: { level: everything ? 'info' : 'error', stream, base: null, serializers: { req: () => ({}), res: () => ({}) } },
  };
}

export function logRequests(app: FastifyInstance): void {
  app.addHook('onResponse', async (request, reply) => {
    request.log.info(
      {
        incident: request.id,
        method: request.method,
        route: request.routeOptions.url ?? 'none',
        status: reply.statusCode,
        ms: Math.round(reply.elapsedTime),
        person: request.who?.personId,
      },
      'answered',
    );
  });
}
