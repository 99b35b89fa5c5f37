/** A usual hour, asked faster and faster until it bends (criterion F27). */
import { join } from 'node:path';
import autocannon from 'autocannon';
import { root } from '../scripts/lib.mjs';
import { type Asking, arrive, drawn } from './arrivals.ts';
import { feeding, type LoadStage } from './load-stage.ts';
import { table, timesOf } from './measure.ts';
import { startServer } from './server-process.ts';

/** One request of ten writes. */
const WRITE_SHARE = 0.1;
const FIRST_RATE = 10;
/** What is asked for at all [1/s]; halved below the first where even that bends. */
const RATES = { most: 640, least: 0.6 };
/** How often the gap between the last that holds and the first that bends is halved. */
const HALVINGS = 2;
/** Where it has bent: fewer answered than this share of those asked, or readers wait this long [ms], or any is refused. */
const BENT = { share: 0.98, readMs: 1000 };
const BARE = { seconds: 5, connections: 10 };
const LONGEST_S = 60;

/** What people look at, by how often: mostly lists and single bins. */
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

function noter(stage: LoadStage, draw: () => number): { readonly next: () => Asking; readonly ids: string[] } {
  const { origin } = stage.server;
  const headers = { cookie: stage.phones[1]!.cookie, 'content-type': 'application/json', origin };
  const ids: string[] = [];
  const next = () => {
    const body = feeding(stage, Math.floor(draw() * 1e6));
    ids.push(body.id);
    return { method: 'POST', path: '/api/feedings', headers, body: JSON.stringify(body) };
  };
  return { next, ids };
}

interface Tried {
  readonly rate: number;
  readonly row: readonly (string | number)[];
  readonly bent: boolean;
}

async function tryAt(stage: LoadStage, rate: number, bareOrigin: string): Promise<Tried> {
  const seconds = stage.secondsPerRate;
  const { origin } = stage.server;
  const draw = drawn(Math.round(rate * 100));
  const notes = noter(stage, draw);
  const bare = await arrive({
    ...{ origin: bareOrigin, perSecond: rate, seconds: 3, draw: drawn(Math.round(rate * 100)) },
    next: () => ({ path: '/bare', headers: {} }),
  });
  const [reads, writes] = await Promise.all([
    arrive({ origin, perSecond: rate * (1 - WRITE_SHARE), seconds, draw, next: looker(stage, draw) }),
    arrive({ origin, perSecond: rate * WRITE_SHARE, seconds, draw: drawn(Math.round(rate * 100) + 1), next: notes.next }),
  ]);
  const [read, write] = [timesOf(reads.waitsMs), timesOf(writes.waitsMs)];
  const refused = reads.refused + writes.refused;
  const share = (reads.inTime + writes.inTime) / (reads.asked + writes.asked);
  const lost = writes.waitsMs.length - stage.countOf(notes.ids);
  if (lost > 0) throw new Error(`Cannot measure as ${lost} notes that were taken are not in the store`);
  const ratio = read.p95Ms / timesOf(bare.waitsMs).p95Ms;
  const [asked, answered] = [(reads.asked + writes.asked) / seconds, `${(100 * share).toFixed(1)} %`];
  return {
    rate,
    row: [`${Number(rate.toFixed(2))}`, asked, answered, read.medianMs, read.p95Ms, ratio, write.medianMs, write.p95Ms, `${refused}`],
    bent: share < BENT.share || read.p95Ms > BENT.readMs || refused > 0,
  };
}

/** Doubled until it bends, or halved until it holds, then halved in between. */
async function walk(
  tryRate: (rate: number) => Promise<Tried>,
): Promise<{ readonly tried: Tried[]; readonly holds: number; readonly bends: number }> {
  const tried = [await tryRate(FIRST_RATE)];
  let [holds, bends] = tried[0]!.bent ? [0, FIRST_RATE] : [FIRST_RATE, Number.POSITIVE_INFINITY];
  const at = async (rate: number) => {
    const found = await tryRate(rate);
    tried.push(found);
    if (found.bent) bends = rate;
    else holds = rate;
  };
  while (bends === Number.POSITIVE_INFINITY && holds * 2 <= RATES.most) await at(holds * 2);
  while (holds === 0 && bends / 2 >= RATES.least) await at(bends / 2);
  for (let halved = 0; halved < HALVINGS && holds > 0 && bends < Number.POSITIVE_INFINITY; halved += 1) await at((holds + bends) / 2);
  return { tried: tried.sort((one, other) => one.rate - other.rate), holds, bends };
}

/** The usual hour by a tool of other people's making. Its connections ask in step: all of a second's requests come in its first milliseconds. */
async function cannonHour(stage: LoadStage): Promise<string> {
  const { origin } = stage.server;
  const duration = stage.secondsPerRate;
  const draw = drawn(7);
  const look = looker(stage, draw);
  const notes = noter(stage, draw);
  const one = () => {
    const { method = 'GET', ...asking } = draw() < WRITE_SHARE ? notes.next() : look();
    return { method, ...asking };
  };
  const found = await autocannon({
    ...{ url: origin, connections: FIRST_RATE, overallRate: FIRST_RATE, duration, timeout: LONGEST_S },
    setupClient: (client) => client.setRequests(Array.from({ length: duration + 2 }, one)),
  });
  const { latency, non2xx, errors, requests } = found;
  const row = [`${FIRST_RATE}`, requests.total / found.duration, latency.p50, latency.p97_5, latency.max, `${non2xx + errors}`];
  return table(['by autocannon: asked a second', 'answered', 'median ms', '97.5 % ms', 'worst ms', 'refused'], [row]);
}

/** What the same machine answers at most where there is nothing to do. */
async function bareRate(origin: string): Promise<number> {
  const { requests } = await autocannon({ url: `${origin}/bare`, connections: BARE.connections, duration: BARE.seconds });
  return requests.average;
}

export async function usualRows(stage: LoadStage): Promise<string> {
  const floor = await startServer([process.execPath, join(root, 'bench/floor-text.mjs')]);
  try {
    const bare = await bareRate(floor.origin);
    const { tried, holds, bends } = await walk((rate) => tryAt(stage, rate, floor.origin));
    const head = [
      'aimed at',
      'asked a second',
      'answered in time',
      'read median ms',
      'p95 ms',
      'x bare',
      'write median ms',
      'p95 ms',
      'refused',
    ];
    const told = (rate: number) => (rate > 0 ? `${Number(rate.toFixed(2))} a second, 1/${Math.round(bare / rate)} of it` : 'nothing');
    const bend =
      bends === Number.POSITIVE_INFINITY
        ? `It does not bend: ${told(holds)} hold, and no more was asked.`
        : `It bends: ${told(holds)} hold, ${told(bends)} do not.`;
    const rule = `Bent is where fewer than ${BENT.share * 100} % are answered in time, a read in twenty waits over ${BENT.readMs / 1000} s, or any is refused. A bare route answers ${Math.round(bare)} a second.`;
    return [
      table(
        head,
        tried.map(({ row }) => row),
      ),
      '',
      `${bend} ${rule}`,
      '',
      await cannonHour(stage),
    ].join('\n');
  } finally {
    await floor.stop();
  }
}
