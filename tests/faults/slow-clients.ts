/** Clients that send one byte at a time, to see when they are cut and how others fare meanwhile (criteria F18). */
import { connect } from 'node:net';
import { performance } from 'node:perf_hooks';

export interface SlowClient {
  /** Resolves when the server has ended it, with how long it lasted [ms]. */
  readonly cut: Promise<number>;
  stop(): void;
}

interface Slow {
  readonly origin: string;
  /** Sent at once. */
  readonly head: string;
  /** Sent a byte at a time after it, without end. */
  readonly drip: string;
  readonly everyMs: number;
}

export const bodyHead = (path: string, type = 'application/json'): string =>
  `POST ${path} HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: ${type}\r\nContent-Length: 60000\r\n\r\n`;

export function slowClient({ origin, head, drip, everyMs }: Slow): SlowClient {
  const { port } = new URL(origin);
  const socket = connect(Number(port), '127.0.0.1');
  const since = performance.now();
  let sent = 0;
  socket.write(head);
  const timer = setInterval(() => {
    socket.write(drip[sent % drip.length]!);
    sent += 1;
  }, everyMs);
  // What the server says on the way out is read, or its end would not be seen.
  socket.resume();
  socket.on('error', () => undefined);
  const cut = new Promise<number>((resolve) => {
    socket.once('close', () => {
      clearInterval(timer);
      resolve(performance.now() - since);
    });
  });
  return { cut, stop: () => socket.destroy() };
}

/** How long each of so many ordinary requests takes, one after the other [ms]. */
export async function ordinaryMs(url: string, count: number, betweenMs: number): Promise<number[]> {
  const times: number[] = [];
  for (let n = 0; n < count; n += 1) {
    const since = performance.now();
    const answer = await fetch(url);
    await answer.arrayBuffer();
    if (!answer.ok) throw new Error(`${url} answered ${answer.status}`);
    times.push(performance.now() - since);
    await new Promise((resolve) => setTimeout(resolve, betweenMs));
  }
  return times.sort((a, b) => a - b);
}
