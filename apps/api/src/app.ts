import fastifyCookie from '@fastify/cookie';
import Fastify, { type FastifyInstance } from 'fastify';
import type { Config } from './config.ts';
import type { Clock, Frame } from './context.ts';
import { schemaOf } from './db/repositories/probe.ts';
import type { Store } from './db/store.ts';
import { refuseCrossSite } from './plugins/csrf.ts';
import { countRequests, type Drain } from './plugins/drain.ts';
import { setApiHeaders, setCommonHeaders } from './plugins/headers.ts';
import { logOptions, logRequests } from './plugins/log.ts';
import { answerNoRequest, incidentCode } from './plugins/no-request.ts';
import { answerProblems, answerUnreadable } from './plugins/problem.ts';
import { refuseOldPages } from './plugins/release.ts';
import { readSessions } from './plugins/session.ts';
import { cutSlowBodies } from './plugins/slow.ts';
import { watchLoop } from './plugins/still.ts';
import { HANDLERS } from './routes/handlers.ts';
import { checkComplete, register } from './routing/route.ts';
import { type Events, eventsOf } from './services/events.ts';
import { type InProcess, inProcessOf } from './services/in-process.ts';
import type { Keeper } from './services/keeper.ts';
import type { Room } from './services/room.ts';
import type { SetupCode } from './services/setup-code.ts';
import type { Soundness } from './services/soundness.ts';
import { solverDesk } from './solver/desk.ts';
import type { OwnSolver } from './solver/highs-solver.ts';

export interface AppOptions {
  readonly store: Store;
  readonly clock: Clock;
  readonly config: Config;
  readonly setupCode?: SetupCode | undefined;
  readonly keeper?: Keeper | undefined;
  readonly room?: Room | undefined;
  readonly soundness?: Soundness | undefined;
  readonly renewDemo?: (() => void) | undefined;
  /** Left out: the solver in a thread of its own. */
  readonly solver?: OwnSolver | undefined;
  /** Where log lines go; left out, there is no log. */
  readonly log?: NodeJS.WritableStream;
  /** Checks every answer against the contract; for tests, since it costs more than the answer itself. */
  readonly checkAnswers?: boolean;
}

const BODY_LIMIT_BYTES = 64 * 1024;
const SECOND_MS = 1000;
/** Cut by half a minute at the latest (criteria F18), as what looks for it comes round every two seconds. */
const SLOWEST_MS = 25 * SECOND_MS;

declare module 'fastify' {
  interface FastifyInstance {
    /** For code in this process (demonstration, tests, pages), never reachable from outside. */
    middenry: InProcess;
    drain: Drain;
    events: Events;
  }
}

/** The whole API as one Fastify instance, not yet listening. */
export async function buildApp(options: AppOptions): Promise<FastifyInstance> {
  const { store, clock, config } = options;
  const solver = solverDesk(options.solver);
  const { setupCode, keeper, room, soundness, renewDemo } = options;
  const schema = schemaOf(store);
  const frame: Frame = { store, clock, config, schema, solver, setupCode, keeper, room, soundness, renewDemo };
  const app = Fastify({
    bodyLimit: BODY_LIMIT_BYTES,
    // The longest that a photo may take, with what the check may come late below two minutes; cutSlowBodies ends everything else sooner.
    requestTimeout: 115 * SECOND_MS,
    http: { headersTimeout: SLOWEST_MS, connectionsCheckingInterval: 2 * SECOND_MS },
    // Rows that need longer say so themselves (mostMsOf).
    handlerTimeout: 10 * SECOND_MS,
    connectionTimeout: 60 * SECOND_MS,
    keepAliveTimeout: 10 * SECOND_MS,
    // Streams of events would otherwise hold a stop up for ever; requests in flight are waited for before (stop.ts).
    forceCloseConnections: true,
    trustProxy: config.trustedProxy.length > 0 ? [...config.trustedProxy] : false,
    genReqId: incidentCode,
    frameworkErrors: answerUnreadable(config),
    clientErrorHandler: answerNoRequest,
    routerOptions: { ignoreTrailingSlash: true, maxParamLength: 200 },
    ...logOptions(options.log, config.log),
  });
  const registered: string[] = [];
  app.addHook('onRoute', ({ method, url }) => {
    for (const one of [method].flat()) if (one !== 'HEAD') registered.push(`${one} ${url}`);
  });
  app.decorate('middenry', inProcessOf(frame, registered));
  app.removeContentTypeParser('text/plain');
  // A picture or a piece of a zip is read by its handler, piece by piece, and never lies in memory whole.
  app.addContentTypeParser(/^image\//, (_request, body, done) => done(null, body));
  app.addContentTypeParser('application/zip', (_request, body, done) => done(null, body));
  app.decorate('events', eventsOf(store));
  app.addHook('preClose', async () => app.events.close());
  app.addHook('onClose', () => solver.close());
  const stopWatch = watchLoop(app.log, { everyMs: SECOND_MS / 2, longestMs: 2 * SECOND_MS });
  app.addHook('onClose', async () => stopWatch());
  cutSlowBodies(app, SLOWEST_MS);
  setCommonHeaders(app, config);
  app.decorate('drain', countRequests(app));
  logRequests(app);
  answerProblems(app);
  checkComplete(HANDLERS);
  await app.register(async (api) => {
    setApiHeaders(api);
    await api.register(fastifyCookie);
    readSessions(api, frame);
    refuseCrossSite(api, config);
    refuseOldPages(api);
    for (const bound of HANDLERS) register(api, frame, bound, options.checkAnswers ?? false);
  });
  return app;
}
