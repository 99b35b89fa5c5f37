/** Sends the demonstration's requests as the people who made them, with the clock where they stood. */
import { SECONDS_PER_DAY } from '@middenry/domain';
import type { FastifyInstance } from 'fastify';
import type { MovableClock } from '../apps/api/src/context.ts';
import type { Task } from './rounds.ts';

/** Device sessions live for thirty days; people sign in again before. */
const COOKIE_DAYS = 20;
const COOKIE_MS = COOKIE_DAYS * SECONDS_PER_DAY * 1000;

export interface Teller {
  readonly clock: MovableClock;
  send(task: Task): Promise<void>;
  /** What somebody sees at a moment. */
  read(at: Date, personId: string, url: string): Promise<unknown>;
  tell(tasks: readonly Task[]): Promise<void>;
  /** Signs everybody out: nobody's device is in the demonstration. */
  end(): Promise<void>;
}

export function tellerOf(app: FastifyInstance, clock: MovableClock): Teller {
  const cookies = new Map<string, { readonly cookie: string; readonly until: number }>();
  const signOut = (cookie: string) => app.inject({ method: 'DELETE', url: '/api/session', headers: { cookie } });

  async function cookieOf(personId: string, at: Date): Promise<string> {
    const known = cookies.get(personId);
    if (known && known.until > at.getTime()) return known.cookie;
    if (known) await signOut(known.cookie);
    const cookie = app.middenry.cookieOf(personId);
    cookies.set(personId, { cookie, until: at.getTime() + COOKIE_MS });
    return cookie;
  }

  async function send({ at, personId, method, url, body }: Task): Promise<void> {
    clock.at = at;
    const headers = { cookie: await cookieOf(personId, at), ...(body ? { 'content-type': 'application/json' } : {}) };
    const answer = await app.inject({ method, url, headers, ...(body ? { payload: JSON.stringify(body) } : {}) });
    if (answer.statusCode >= 300)
      throw new Error(
        `Cannot tell the demonstration at ${at.toISOString()}: ${method} ${url} answered ${answer.statusCode} ${answer.body}`,
      );
  }

  return {
    clock,
    send,
    async read(at, personId, url) {
      clock.at = at;
      return (await app.inject({ url, headers: { cookie: await cookieOf(personId, at) } })).json();
    },
    async tell(tasks) {
      for (const task of tasks) await send(task);
    },
    async end() {
      for (const { cookie } of cookies.values()) await signOut(cookie);
    },
  };
}
