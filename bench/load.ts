/** Many phones at once: a usual hour, asked faster and faster until it bends, and a class that comes back from the garden (criteria F27, F28). */
import { Agent, request } from 'node:http';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { root } from '../scripts/lib.mjs';
import { type Asking, arrive, drawn } from './arrivals.ts';
import { type LoadStage, type Phone, stageOf } from './load-stage.ts';
import { table, timesOf } from './measure.ts';
import { startServer } from './server-process.ts';
import { uuid7 } from './uuid7.ts';

const PHONES = 300;
const QUEUED = 10;
const MOST_TRIES = 60;
const SECONDS = 30;
const RATES = [10, 20, 40, 80, 160, 320] as const;
/** One request of ten writes. */
const WRITE_SHARE = 0.1;
/** Where we say that it has bent: a wait that a person notices [ms], or an answer that is none. */
const BENT_MS = 1000;
const [OK, FOUND, TOO_MANY, BUSY] = [200, 300, 429, 503];

const feeding = ({ binIds, foodId }: LoadStage, nth: number, happenedAt = new Date()) => ({
  id: uuid7(),
  binId: binIds[nth % binIds.length]!,
  happenedAt: happenedAt.toISOString(),
  zone: 1,
  items: [{ materialId: foodId, massKg: 0.2, how: 'guessed' }],
});

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
    const deviceAt = new Date().toISOString();
    const body = { personId, deviceAt, entries: entries.map((entry) => ({ kind: 'feeding', keptAt: deviceAt, body: entry })) };
    const { status, text, retryS } = await post(url, agent, cookie, JSON.stringify(body));
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
  const agent = new Agent({ keepAlive: true, maxSockets: PHONES });
  const home: Home = { answersMs: [], ids: [], odd: [], waits: 0 };
  const url = `${stage.server.origin}/api/entries/batch`;
  const since = performance.now();
  await Promise.all(
    stage.phones.map(async (whose, phone) => {
      const kept = Array.from({ length: QUEUED }, (_, nth) => feeding(stage, phone + nth, new Date(Date.now() - (nth + 1) * 60_000)));
      await sleep((spreadMs * phone) / PHONES);
      await empty(url, agent, whose, kept, home);
    }),
  );
  const tookS = (performance.now() - since) / 1000;
  agent.destroy();
  const inOrder = [...home.answersMs].sort((one, other) => one - other);
  const p99Ms = inOrder[Math.floor(inOrder.length * 0.99)] ?? Number.NaN;
  return { ...home, tookS, p99Ms, medianMs: timesOf(inOrder).medianMs, kept: stage.countOf(home.ids) };
}

async function classRows(stage: LoadStage): Promise<string> {
  const rows: (string | number)[][] = [];
  for (const [name, spreadMs] of [
    ['all in the same second', 0],
    ['over 60 s', 60_000],
  ] as const) {
    const { tookS, medianMs, p99Ms, waits, odd, ids, kept } = await comeHome(stage, spreadMs);
    if (odd.length > 0) throw new Error(`Cannot measure as phones got answers that they cannot obey: ${odd[0]}`);
    rows.push([name, tookS, medianMs, p99Ms, `${waits}`, `${ids.length}`, `${kept}`]);
  }
  return table(
    [`${PHONES} phones x ${QUEUED} entries`, 'all in after s', 'median ms', 'p99 ms', 'told to wait', 'said in', 'in the store'],
    rows,
  );
}

/** What people look at in a usual hour, by how often: mostly lists and single bins. */
function looker(stage: LoadStage, draw: () => number): () => Asking {
  const headers = { cookie: stage.phones[0]!.cookie };
  const page = { ...headers, accept: 'text/html' };
  const bin = () => stage.binIds[Math.floor(draw() * stage.binIds.length)]!;
  const looks = [
    () => ({ path: '/api/board', headers }),
    ...[1, 2, 3].map(() => () => ({ path: `/api/bins/${bin()}`, headers })),
    ...[1, 2, 3].map(() => () => ({ path: `/api/bins/${bin()}/entries`, headers })),
    () => ({ path: '/api/shifts', headers }),
    () => ({ path: `/bins/${bin()}/log`, headers: page }),
  ];
  return () => looks[Math.floor(draw() * looks.length)]!();
}

async function usual(stage: LoadStage, rate: number) {
  const { origin } = stage.server;
  const draw = drawn(rate);
  let nth = 0;
  const note = (): Asking => {
    nth += 1;
    const headers = { cookie: stage.phones[1]!.cookie, 'content-type': 'application/json', origin };
    return { method: 'POST', path: '/api/feedings', headers, body: JSON.stringify(feeding(stage, Math.floor(draw() * 1e6) + nth)) };
  };
  const [reads, writes] = await Promise.all([
    arrive({ origin, perSecond: rate * (1 - WRITE_SHARE), seconds: SECONDS, draw, next: looker(stage, draw) }),
    arrive({ origin, perSecond: rate * WRITE_SHARE, seconds: SECONDS, draw: drawn(rate + 1), next: note }),
  ]);
  return { reads, writes };
}

async function usualRows(stage: LoadStage): Promise<string> {
  const floor = await startServer([process.execPath, join(root, 'bench/floor-text.mjs')]);
  const rows: (string | number)[][] = [];
  try {
    for (const rate of RATES) {
      const bareNext = () => ({ path: '/bare', headers: {} });
      const bare = await arrive({ origin: floor.origin, perSecond: rate, seconds: 3, draw: drawn(rate), next: bareNext });
      const { reads, writes } = await usual(stage, rate);
      const [read, write] = [timesOf(reads.waitsMs), timesOf(writes.waitsMs)];
      const refused = reads.refused + writes.refused;
      const got = (read.count + write.count) / SECONDS;
      const ratio = read.p95Ms / timesOf(bare.waitsMs).p95Ms;
      rows.push([`${rate}`, got, read.medianMs, read.p95Ms, ratio, write.medianMs, write.p95Ms, `${refused}`]);
      if (refused > 0 || read.p95Ms > BENT_MS || write.p95Ms > BENT_MS) break;
    }
  } finally {
    await floor.stop();
  }
  return table(['asked a second', 'answered', 'read median ms', 'p95 ms', 'x bare', 'write median ms', 'p95 ms', 'refused'], rows);
}

/** Everything for so many bins: 60 is the wish, 600 and 10,000 say where it goes. */
export async function benchLoad({ bins }: { bins: number }): Promise<string> {
  const stage = await stageOf({ people: PHONES, bins });
  try {
    const head = `${bins} bins, ${PHONES} people. First look at the board ${stage.firstLookS.toFixed(1)} s.`;
    const hour = await usualRows(stage);
    const home = await classRows(stage);
    return [head, '', hour, '', home, '', `The server has held ${stage.mostMemoryMb().toFixed(0)} MB at most.`].join('\n');
  } finally {
    await stage.close();
  }
}
