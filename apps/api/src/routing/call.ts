import type { PDF, Reach, ROUTES, RouteName, XLSX } from '@middenry/contract';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type * as z from 'zod';
import type { Context, Frame, Who } from '../context.ts';
import { insertAudit } from '../db/repositories/audit.ts';
import { refuse } from '../refusal.ts';
import { localDateAt } from '../services/local-time.ts';
import { LANGUAGE_COOKIE, languageAsked } from '../services/words/languages.ts';

export type SpecOf<N extends RouteName> = Extract<(typeof ROUTES)[number], { name: N }>;
type Parsed<S, K extends string> = S extends Readonly<Record<K, infer Z extends z.ZodType>> ? z.output<Z> : undefined;
/** What a handler returns: the answer's shape, text or bytes for a file, nothing for 204. */
export type AnswerOf<N extends RouteName> =
  SpecOf<N> extends { answer: infer Z extends z.ZodType }
    ? z.output<Z>
    : SpecOf<N> extends { status: 204 }
      ? undefined
      : SpecOf<N> extends { contentType: 'image/jpeg' | typeof XLSX | typeof PDF }
        ? Buffer
        : string;
type WhoOf<S> = S extends { access: { anonymous: 'any' } } ? Who | null : Who;

/** One request of one route, checked: a handler sees nothing that the contract does not name. */
export interface Call<N extends RouteName> extends Context {
  readonly who: WhoOf<SpecOf<N>>;
  readonly params: Parsed<SpecOf<N>, 'params'>;
  readonly query: Parsed<SpecOf<N>, 'query'>;
  readonly body: Parsed<SpecOf<N>, 'body'>;
  /** `own`: only what is theirs; the handler must then ask `own` or `ownSite`, or the answer is refused. */
  readonly reach: Reach;
  /** Goes on when the row is theirs or they may act on every row; else it looks as if it were not there. */
  own(mine: boolean): void;
  ownSite(siteId: string): void;
  header(name: string, value: string): void;
  readonly reply: FastifyReply;
  readonly request: FastifyRequest;
}

export interface CallState {
  ownershipAsked: boolean;
  isAgain: boolean;
}

export interface CallParts {
  readonly frame: Frame;
  readonly request: FastifyRequest;
  readonly reply: FastifyReply;
  readonly who: Who | null;
  readonly reach: Reach;
  readonly params: unknown;
  readonly query: unknown;
  readonly body: unknown;
}

export function callOf<N extends RouteName>(parts: CallParts, state: CallState): Call<N> {
  const { frame, request, reply, who, reach } = parts;
  const now = frame.clock.now();
  const own = (mine: boolean) => {
    state.ownershipAsked = true;
    if (reach !== 'any' && !mine) throw refuse('not-found');
  };
  const call: Call<RouteName> = {
    ...frame,
    who: who as never,
    reach,
    params: parts.params as never,
    query: parts.query as never,
    body: parts.body as never,
    language: languageAsked(request.cookies[LANGUAGE_COOKIE], request.headers['accept-language']),
    requestId: request.id,
    now,
    today: (timeZone) => localDateAt(now, timeZone),
    audit: (action, subject = '', detail = {}) =>
      insertAudit(frame.store, { at: now, personId: who?.personId ?? null, action, subject, detail, requestId: request.id }),
    again: () => {
      state.isAgain = true;
    },
    own,
    ownSite: (siteId) => own(who !== null && (who.siteIds.length === 0 || who.siteIds.includes(siteId))),
    header: (name, value) => void reply.header(name, value),
    reply,
    request,
  };
  return call as unknown as Call<N>;
}
