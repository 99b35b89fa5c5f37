import { randomBytes } from 'node:crypto';
import { Agent, request } from 'node:http';
import { setTimeout as sleep } from 'node:timers/promises';

const agent = new Agent({ keepAlive: false, maxSockets: 64 });

export interface Reply {
  readonly status: number;
  readonly retryAfter: string | undefined;
  readonly text: string;
  readonly cookie: string;
}

/** One request; rejects when the connection breaks, which is what a killed server looks like. */
export function ask(
  origin: string,
  method: string,
  path: string,
  { body, cookie = '' }: { body?: unknown; cookie?: string } = {},
): Promise<Reply> {
  const payload = body === undefined ? undefined : JSON.stringify(body);
  // Said by ourselves: a DELETE with a body would else go out without its length, which is no request at all.
  const framed = payload ? { 'content-type': 'application/json', 'content-length': Buffer.byteLength(payload), origin } : {};
  const headers = { ...(cookie ? { cookie } : {}), ...framed };
  return new Promise((resolve, reject) => {
    const asked = request(origin + path, { method, headers, agent }, (answer) => {
      let text = '';
      answer.setEncoding('utf8');
      answer.on('data', (part: string) => {
        text += part;
      });
      answer.on('error', reject);
      answer.on('aborted', () => reject(new Error('the answer was cut off')));
      answer.on('end', () =>
        resolve({
          status: answer.statusCode ?? 0,
          retryAfter: answer.headers['retry-after'],
          text,
          cookie: (answer.headers['set-cookie'] ?? []).map((line) => line.split(';')[0]).join('; '),
        }),
      );
    });
    asked.on('error', reject);
    asked.end(payload);
  });
}

export function uuid7(): string {
  const bytes = randomBytes(16);
  bytes.writeUIntBE(Date.now(), 0, 6);
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x70;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = bytes.toString('hex');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}

export interface Feeding {
  readonly id: string;
  readonly binId: string;
  readonly happenedAt: string;
  readonly zone: number;
  readonly items: readonly { readonly materialId: string; readonly massKg: number; readonly how: 'weighed' }[];
}

/** What became of everything that was sent. */
export interface Sent {
  readonly acknowledged: Feeding[];
  /** Broken off before an answer came: the server may have taken it or not. */
  readonly unknown: Feeding[];
  /** Answered, but not with 201. */
  readonly refused: Reply[];
}

export async function enterDemo(origin: string): Promise<string> {
  const reply = await ask(origin, 'POST', '/api/session/demo', { body: { as: 'coordinator' } });
  if (reply.status !== 201) throw new Error(`the demonstration answered ${reply.status}: ${reply.text}`);
  return reply.cookie;
}

/** Several people log feedings, one after the other each, until `stopped` says so or the server is gone. */
async function feedUntil(origin: string, cookie: string, stopped: () => boolean, people = 6): Promise<Sent> {
  const bins = (JSON.parse((await ask(origin, 'GET', '/api/bins', { cookie })).text) as { items: { id: string; state: string }[] }).items;
  const sent: Sent = { acknowledged: [], unknown: [], refused: [] };
  const person = async (index: number): Promise<void> => {
    const bin = bins[index % bins.length];
    while (bin && !stopped()) {
      const happenedAt = new Date(Date.now() - 60_000).toISOString();
      const massKg = Math.ceil(Math.random() * 900) / 1_000;
      const body: Feeding = { id: uuid7(), binId: bin.id, happenedAt, zone: 1, items: [{ materialId: 'apple', massKg, how: 'weighed' }] };
      const reply = await ask(origin, 'POST', '/api/feedings', { cookie, body }).catch(() => undefined);
      if (reply === undefined) {
        sent.unknown.push(body);
        return;
      }
      if (reply.status === 201) sent.acknowledged.push(body);
      else sent.refused.push(reply);
    }
  };
  await Promise.all(Array.from({ length: people }, (_, index) => person(index)));
  return sent;
}

/** Feeds without end, and resolves once so many have begun, whatever the machine: a few are then in flight, the others are answered. */
export async function feedPast(origin: string, cookie: string, least: number): Promise<{ readonly sent: Promise<Sent> }> {
  let begun = 0;
  let isOver = false;
  const sent = feedUntil(origin, cookie, () => {
    begun += 1;
    return false;
  });
  const end = () => {
    isOver = true;
  };
  sent.then(end, end);
  while (begun < least && !isOver) await sleep(10);
  return { sent };
}

/** The feedings among these that the server does not have, or has otherwise than they were sent. */
export async function missing(origin: string, cookie: string, feedings: readonly Feeding[]): Promise<string[]> {
  const found: string[] = [];
  for (const { id, items } of feedings) {
    const { status, text } = await ask(origin, 'GET', `/api/entries/${id}`, { cookie });
    const entry = status === 200 ? (JSON.parse(text) as { items: { massKg: number }[] }) : undefined;
    if (!entry) found.push(`${id}: ${status}`);
    else if (entry.items.length !== 1 || entry.items[0]?.massKg !== items[0]?.massKg) found.push(`${id}: not as sent`);
  }
  return found;
}
