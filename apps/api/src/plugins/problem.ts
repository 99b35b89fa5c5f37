import type { ErrorCode, Problem } from '@middenry/contract';
import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { Config } from '../config.ts';
import { isDamage, sqliteCodeOf } from '../db/fault.ts';
import { Refusal, type RefusalExtra } from '../refusal.ts';
import { NO_PAGE_POLICY, putCommonHeaders } from './headers.ts';
import { PROBLEMS } from './problem-words.ts';

const MEDIA_TYPE = 'application/problem+json; charset=utf-8';
const RETRY_SECONDS = 5;
/** Where pages loaded before 26 November 2026 ask, such as a screen on a wall: told to load anew, not that their link was taken back. */
const OLD_ASKING = /^\/api\/(linked-boards|invite-cards|replies)\/[\w-]{22,64}$/;

/** Every fault leaves as one shape, RFC 9457 problem details; what went wrong inside is told to the log only. */
export function answerProblems(app: FastifyInstance): void {
  app.setErrorHandler((error: FastifyError | Refusal, request, reply) => {
    const refusal = error instanceof Refusal ? error : refusalFrom(error);
    if (PROBLEMS[refusal.code].status >= 500) request.log.error({ err: error, incident: request.id }, 'request failed');
    return sendProblem(request, reply, refusal.code, refusal.extra);
  });
  app.setNotFoundHandler((request, reply) => sendProblem(request, reply, OLD_ASKING.test(request.url) ? 'update-first' : 'not-found'));
}

/** For faults met before any route is found, such as an address that cannot be read: no hook and no handler ever sees those. */
export function answerUnreadable(config: Config) {
  return (_error: FastifyError, request: FastifyRequest, reply: FastifyReply): void => {
    putCommonHeaders(reply, config);
    sendProblem(request, reply, 'not-found');
  };
}

export function problemOf(code: ErrorCode, requestId: string, extra: RefusalExtra = {}): Problem {
  const { status, title, detail } = PROBLEMS[code];
  return {
    type: `about:middenry#${code}`,
    title,
    status,
    detail: extra.detail ?? detail,
    code,
    requestId,
    ...(extra.errors === undefined ? {} : { errors: [...extra.errors] }),
    ...(extra.retryAfterSeconds === undefined ? {} : { retryAfterSeconds: extra.retryAfterSeconds }),
    ...(extra.help === undefined ? {} : { help: { ...extra.help } }),
  };
}

function sendProblem(request: FastifyRequest, reply: FastifyReply, code: ErrorCode, extra: RefusalExtra = {}): FastifyReply {
  const problem = problemOf(code, request.id, extra);
  const retryAfter = extra.retryAfterSeconds ?? (problem.status === 503 ? RETRY_SECONDS : undefined);
  if (retryAfter !== undefined) reply.header('retry-after', String(retryAfter));
  reply.header('cache-control', 'no-store');
  reply.header('content-security-policy', NO_PAGE_POLICY);
  return reply.code(problem.status).type(MEDIA_TYPE).serializer(JSON.stringify).send(problem);
}

/** What the framework and the store throw, in our codes; anything unknown is our own fault. */
function refusalFrom(error: FastifyError): Refusal {
  const code = error.code ?? '';
  const fault = sqliteCodeOf(error);
  if (isDamage(fault)) return new Refusal('store-damaged');
  if (fault === 'SQLITE_FULL') return new Refusal('no-room');
  if (/^SQLITE_(BUSY|LOCKED|IOERR|READONLY|CANTOPEN)/.test(fault)) return new Refusal('unavailable');
  if (code === 'FST_ERR_CTP_BODY_TOO_LARGE') return new Refusal('too-large');
  if (code === 'FST_ERR_HANDLER_TIMEOUT' || error.statusCode === 503) return new Refusal('unavailable');
  if (error.statusCode === 404) return new Refusal('not-found');
  if (error.statusCode !== undefined && error.statusCode >= 400 && error.statusCode < 500) return new Refusal('bad-request');
  return new Refusal('server-fault');
}
