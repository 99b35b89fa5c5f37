import { Readable } from 'node:stream';
import { type Reach, ROUTES, type RouteName, type RouteSpec } from '@middenry/contract';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { Frame, Who } from '../context.ts';
import { isDamage, sqliteCodeOf } from '../db/fault.ts';
import { refuse } from '../refusal.ts';
import { type AnswerOf, type Call, type CallState, callOf } from './call.ts';
import { parseInput } from './parse.ts';
import { serialiserOf } from './serialise.ts';

export type Handler<N extends RouteName> = (call: Call<N>) => AnswerOf<N> | Promise<AnswerOf<N>>;

/** A row of the route table with the code that answers it. */
export interface BoundRoute {
  readonly spec: RouteSpec;
  readonly handler: Handler<RouteName>;
}

/**
 * Binds a handler to its row of the route table.
 *
 * @throws {RangeError} when the table has no such row
 */
export function route<N extends RouteName>(name: N, handler: Handler<N>): BoundRoute {
  const spec = ROUTES.find((row) => row.name === name);
  if (spec === undefined) throw new RangeError(`Cannot bind ${name} as the route table has no such row: current value is undefined`);
  return { spec, handler: handler as unknown as Handler<RouteName> };
}

/**
 * Makes sure that table and code say the same: no row without code, none twice.
 *
 * @throws {Error} naming the rows
 */
export function checkComplete(bound: readonly BoundRoute[]): void {
  const names = bound.map(({ spec }) => spec.name);
  const missing = ROUTES.filter(({ name }) => !names.includes(name)).map(({ name }) => name);
  if (missing.length > 0) throw new Error(`Cannot serve the API as these routes have no handler: ${missing.join(', ')}`);
  const twice = names.filter((name, at) => names.indexOf(name) !== at);
  if (twice.length > 0) throw new Error(`Cannot serve the API as these routes are bound twice: ${twice.join(', ')}`);
}

/** What this person may do on this route; nobody and unknown roles may do nothing that is not said. */
export function reachOf(spec: RouteSpec, who: Who | null): Reach {
  return who === null ? spec.access.anonymous : spec.access[who.role];
}

/** Registers one row: access first, then input, then the handler, then the answer. */
export function register(app: FastifyInstance, frame: Frame, { spec, handler }: BoundRoute, checkAnswers: boolean): void {
  app.route({
    method: spec.method,
    url: spec.path,
    ...(spec.bodyLimitBytes === undefined ? {} : { bodyLimit: spec.bodyLimitBytes }),
    config: { ...(spec.takes === undefined ? {} : { takes: spec.takes }), ...(spec.reads === undefined ? {} : { reads: spec.reads }) },
    handlerTimeout: mostMsOf(spec),
    onRequest: async (request) => refuseOutsiders(spec, request),
    handler: async (request, reply) => {
      // No byte goes either way meanwhile, which a socket takes for the end.
      if (spec.mostSeconds !== undefined) request.raw.socket?.setTimeout?.(mostMsOf(spec));
      const state: CallState = { ownershipAsked: false, isAgain: false };
      const reach = reachOf(spec, request.who);
      const call = callOf({ frame, request, reply, who: request.who, reach, ...parseInput(spec, request) }, state);
      if (spec.method !== 'GET' && !spec.reads) {
        refuseToWriteDamaged(frame);
        refuseWithoutRoom(spec, frame, request.who);
      }
      if (spec.sums) refuseSumsOfDamaged(frame);
      const answer = await noticingFaults(frame, () => handler(call));
      if (reply.sent) return reply;
      if (spec.sums && (await frame.soundness?.sure()) === false) {
        if ((answer as unknown) instanceof Readable) (answer as unknown as Readable).destroy();
        refuseSumsOfDamaged(frame);
      }
      if (reach === 'own' && spec.own !== 'nothing' && !state.ownershipAsked)
        throw new Error(`Cannot answer ${spec.name} as its handler never asked whose row it is`);
      if (checkAnswers && spec.answer !== undefined) spec.answer.parse(answer);
      // Made with the first answer of its kind: all of them at once are a fifth of the work of a start.
      return send(reply, spec, state, spec.answer === undefined ? answer : serialiserOf(spec.answer)(answer));
    },
  });
}

/** Whoever answers nothing until then says so (criteria F30). */
const ANSWER_MS = 10_000;
/** A picture may be two minutes on its way from where the signal is bad. */
const PICTURE_MS = 120_000;
const NO_SUMS =
  'The store is damaged, so its sums may be wrong and are not given out. Nothing is saved either; whoever runs this machine puts a backup back.';
/** Years of photos over a slow line. */
const FILE_MS = 3_600_000;

/** How long the answer of a row may take. */
export function mostMsOf({ takes, sends, mostSeconds }: Pick<RouteSpec, 'takes' | 'sends' | 'mostSeconds'>): number {
  if (takes !== undefined) return PICTURE_MS;
  if (sends !== undefined) return FILE_MS;
  return mostSeconds === undefined ? ANSWER_MS : mostSeconds * 1000;
}

function refuseOutsiders(spec: RouteSpec, { who, erased }: Pick<FastifyRequest, 'who' | 'erased'>): void {
  if (reachOf(spec, who) === 'none') throw refuse(erased ? 'erased' : who === null ? 'not-signed-in' : 'not-allowed');
  if (who?.secondStepMissing && !spec.beforeSecondStep && spec.access.anonymous === 'none') throw refuse('second-step-first');
}

/** What is kept back when the disk is full is for coordinators, and for whoever is signing in as one. */
function refuseWithoutRoom(spec: RouteSpec, { room }: Frame, who: Who | null): void {
  if (who?.role === 'coordinator' || spec.tag === 'session') return;
  if (room?.isTight()) throw refuse('no-room');
}

/** What is written into a damaged store is lost with it, so it stays where it was entered. */
function refuseToWriteDamaged({ soundness }: Frame): void {
  if (soundness !== undefined && soundness.damage() !== null) throw refuse('store-damaged');
}

/** A sum over pages of which one is wrong is a wrong number, and whoever takes it away never hears of it (criteria F11). */
function refuseSumsOfDamaged({ soundness }: Frame): void {
  if (soundness !== undefined && soundness.damage() !== null) throw refuse('store-damaged', { detail: NO_SUMS });
}

async function noticingFaults<T>({ room, soundness }: Frame, work: () => T | Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    const fault = sqliteCodeOf(error);
    const isFull = (error as { code?: unknown }).code === 'ENOSPC';
    if (isFull || fault === 'SQLITE_FULL') room?.giveBack();
    if (isDamage(fault)) soundness?.found((error as Error).message);
    throw isFull ? refuse('no-room') : error;
  }
}

function send(reply: FastifyReply, spec: RouteSpec, state: CallState, text: unknown): FastifyReply {
  if (reply.statusCode === 200) reply.code(state.isAgain ? 200 : spec.status);
  if (spec.status === 204) return reply.send();
  return reply.type(spec.contentType ?? 'application/json; charset=utf-8').send(text);
}

declare module 'fastify' {
  interface FastifyRequest {
    /** Who is signed in here; null for nobody. */
    who: Who | null;
    /** Whoever was signed in here was erased since. */
    erased: boolean;
  }
}
