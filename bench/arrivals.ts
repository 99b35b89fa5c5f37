/** Requests that come by themselves, as people do: at instants drawn beforehand, whatever became of those before. */
import { Agent, request } from 'node:http';
import { setTimeout as sleep } from 'node:timers/promises';

export interface Asking {
  readonly method?: string;
  readonly path: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body?: string;
}

export interface Answered {
  /** From the instant at which each was to be sent to its last byte [ms], so that a queue before the server counts too. */
  readonly waitsMs: number[];
  readonly refused: number;
  readonly asked: number;
  /** Answered before a second after the last was due. */
  readonly inTime: number;
}

/** Numbers from 0 up to 1, the same for the same seed (mulberry32, public domain). */
export function drawn(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

interface Arriving {
  readonly origin: string;
  readonly perSecond: number;
  readonly seconds: number;
  readonly draw: () => number;
  readonly next: () => Asking;
}

/** Exponential gaps: two may come in the same millisecond, and there are pauses. */
export async function arrive({ origin, perSecond, seconds, draw, next }: Arriving): Promise<Answered> {
  const agent = new Agent({ keepAlive: true });
  const waitsMs: number[] = [];
  const sent: Promise<void>[] = [];
  let [refused, asked, inTime] = [0, 0, 0];
  const since = performance.now();
  for (let dueMs = 0; ; ) {
    dueMs += (-Math.log(1 - draw()) / perSecond) * 1000;
    if (dueMs > seconds * 1000) break;
    const earlyMs = since + dueMs - performance.now();
    if (earlyMs > 0) await sleep(earlyMs);
    const due = since + dueMs;
    asked += 1;
    sent.push(
      statusOf(origin, agent, next()).then((status) => {
        if (status < 200 || status > 299) {
          refused += 1;
          return;
        }
        waitsMs.push(performance.now() - due);
        if (performance.now() - since <= (seconds + 1) * 1000) inTime += 1;
      }),
    );
  }
  await Promise.all(sent);
  agent.destroy();
  return { waitsMs, refused, asked, inTime };
}

/** 0 where there was no answer. */
function statusOf(origin: string, agent: Agent, { method = 'GET', path, headers, body }: Asking): Promise<number> {
  return new Promise((resolve) => {
    const asked = request(origin + path, { agent, method, headers }, (answer) => {
      answer.on('data', () => undefined);
      answer.on('end', () => resolve(answer.statusCode ?? 0));
      answer.on('error', () => resolve(0));
    });
    asked.on('error', () => resolve(0));
    asked.end(body);
  });
}
