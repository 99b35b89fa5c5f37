/** A class that comes back from the garden: three hundred phones, each with ten notes (criterion F28). */
import { Agent, request } from 'node:http';
import { setTimeout as sleep } from 'node:timers/promises';
import autocannon from 'autocannon';
import { feeding, type LoadStage, type Phone } from './load-stage.ts';
import { table, timesOf } from './measure.ts';

const QUEUED = 10;
const MOST_TRIES = 60;
const LONGEST_S = 120;
const [OK, FOUND, TOO_MANY, BUSY] = [200, 300, 429, 503];

interface Home {
  /** One time for every answer [ms]. */
  readonly answersMs: number[];
  readonly ids: string[];
  /** Of the answers that were none of ours to give. */
  readonly odd: string[];
  waits: number;
}

function post(url: string, agent: Agent, cookie: string, body: string): Promise<{ status: number; text: string; retryS: number }> {
  return new Promise((resolve, reject) => {
    const headers = { cookie, 'content-type': 'application/json', origin: new URL(url).origin };
    const asked = request(url, { agent, method: 'POST', headers }, (answer) => {
      let text = '';
      answer.on('data', (part: Buffer) => {
        text += part.toString();
      });
      answer.on('end', () => resolve({ status: answer.statusCode ?? 0, text, retryS: Number(answer.headers['retry-after'] ?? 1) }));
    });
    asked.on('error', reject);
    asked.end(body);
  });
}

const batchOf = (personId: string, entries: readonly { id: string }[]): string => {
  const deviceAt = new Date().toISOString();
  return JSON.stringify({ personId, deviceAt, entries: entries.map((entry) => ({ kind: 'feeding', keptAt: deviceAt, body: entry })) });
};
const queueOf = (stage: LoadStage, phone: number) =>
  Array.from({ length: QUEUED }, (_, nth) => feeding(stage, phone + nth, new Date(Date.now() - (nth + 1) * 60_000)));

/** A phone sends what it kept, and waits as long as it is told to. */
async function empty(
  url: string,
  agent: Agent,
  { personId, cookie }: Phone,
  entries: readonly { id: string }[],
  home: Home,
): Promise<void> {
  for (let tries = 0; tries < MOST_TRIES; tries += 1) {
    const since = performance.now();
    const { status, text, retryS } = await post(url, agent, cookie, batchOf(personId, entries));
    home.answersMs.push(performance.now() - since);
    if (status === OK) {
      const items: { id: string; status: number }[] = JSON.parse(text).items;
      for (const item of items)
        if (item.status >= OK && item.status < FOUND) home.ids.push(item.id);
        else home.odd.push(`${item.status} for one of them`);
      return;
    }
    if (status !== BUSY && status !== TOO_MANY) home.odd.push(`${status} ${text.slice(0, 120)}`);
    home.waits += 1;
    await sleep(retryS * 1000 * (1 + Math.random()));
  }
}

/** Three hundred phones with ten entries each; how they come is spread over so many milliseconds. */
async function comeHome(stage: LoadStage, spreadMs: number) {
  const agent = new Agent({ keepAlive: true, maxSockets: stage.phones.length });
  const home: Home = { answersMs: [], ids: [], odd: [], waits: 0 };
  const url = `${stage.server.origin}/api/entries/batch`;
  const since = performance.now();
  await Promise.all(
    stage.phones.map(async (whose, phone) => {
      const kept = queueOf(stage, phone);
      await sleep((spreadMs * phone) / stage.phones.length);
      await empty(url, agent, whose, kept, home);
    }),
  );
  const tookS = (performance.now() - since) / 1000;
  agent.destroy();
  const inOrder = [...home.answersMs].sort((one, other) => one - other);
  const p99Ms = inOrder[Math.floor(inOrder.length * 0.99)] ?? Number.NaN;
  return { ...home, tookS, p99Ms, medianMs: timesOf(inOrder).medianMs, kept: stage.countOf(home.ids) };
}

/** The same by a tool of other people's making: a connection for each phone, each sends once. It does not come again when it is told to wait. */
async function cannonHome(stage: LoadStage): Promise<(string | number)[]> {
  const queues = stage.phones.map((_, phone) => queueOf(stage, phone));
  let nth = 0;
  const since = performance.now();
  const { latency, non2xx, errors, ...found } = await autocannon({
    url: stage.server.origin,
    connections: stage.phones.length,
    amount: stage.phones.length,
    timeout: LONGEST_S,
    setupClient: (client) => {
      const { personId, cookie } = stage.phones[nth]!;
      const headers = { cookie, 'content-type': 'application/json', origin: stage.server.origin };
      client.setRequests([{ method: 'POST', path: '/api/entries/batch', headers, body: batchOf(personId, queues[nth]!) }]);
      nth += 1;
    },
  });
  const tookS = (performance.now() - since) / 1000;
  const kept = stage.countOf(queues.flat().map(({ id }) => id));
  return ['at once, by autocannon', tookS, latency.p50, latency.p99, `${non2xx + errors}`, `${found['2xx'] * QUEUED}`, `${kept}`];
}

export async function classRows(stage: LoadStage): Promise<string> {
  const rows: (string | number)[][] = [];
  for (const [name, spreadMs] of [
    ['all in the same second', 0],
    ['over 60 s', 60_000],
  ] as const) {
    const { tookS, medianMs, p99Ms, waits, odd, ids, kept } = await comeHome(stage, spreadMs);
    if (odd.length > 0) throw new Error(`Cannot measure as phones got answers that they cannot obey: ${odd[0]}`);
    rows.push([name, tookS, medianMs, p99Ms, `${waits}`, `${ids.length}`, `${kept}`]);
  }
  rows.push(await cannonHome(stage));
  return table(
    [
      `${stage.phones.length} phones x ${QUEUED} entries`,
      'all in after s',
      'median ms',
      'p99 ms',
      'told to wait',
      'said in',
      'in the store',
    ],
    rows,
  );
}
