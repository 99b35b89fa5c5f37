import { mkdtempSync, rmSync } from 'node:fs';
import { Agent, get } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root } from '../scripts/lib.mjs';
import { Client } from './client.ts';
import { table, timesOf } from './measure.ts';
import { startOurs, startServer } from './server-process.ts';
import { uuid7 } from './uuid7.ts';

const pageCount = 200;
const changeCount = 30;
const longestMs = 10_000;

/** One open page: it counts the changes it was told of. */
interface OpenPage {
  readonly told: () => number;
  readonly close: () => void;
}

const agent = new Agent({ keepAlive: true, maxSockets: pageCount + 8 });

function openPage(url: string, cookie: string): Promise<OpenPage> {
  return new Promise((resolve, reject) => {
    let count = 0;
    const asked = get(url, { agent, headers: { cookie, accept: 'text/event-stream' } }, (answer) => {
      if (answer.statusCode !== 200) return reject(new Error(`${url} answered ${answer.statusCode}`));
      answer.setEncoding('utf8');
      answer.on('data', (text: string) => {
        count += text.split('event: change').length - 1;
      });
      answer.on('error', () => undefined);
      resolve({ told: () => count, close: () => asked.destroy() });
    });
    asked.on('error', reject);
  });
}

/** Makes changes one by one and measures each until the last page has been told. */
async function spread(url: string, cookie: string, change: () => Promise<unknown>): Promise<number[]> {
  const pages: OpenPage[] = [];
  for (let index = 0; index < pageCount; index += 1) pages.push(await openPage(url, cookie));
  const found: number[] = [];
  for (let done = 0; done < changeCount; done += 1) {
    await new Promise((resolve) => setTimeout(resolve, 50));
    const before = pages.map((page) => page.told());
    const since = performance.now();
    await change();
    while (!pages.every((page, index) => page.told() > (before[index] ?? 0))) {
      if (performance.now() - since > longestMs) throw new Error(`${url}: not every page was told within ${longestMs} ms`);
      await new Promise((resolve) => setTimeout(resolve, 1));
    }
    found.push(performance.now() - since);
  }
  for (const page of pages) page.close();
  return found;
}

/** How long after a change is sent the last of 200 open pages knows of it, against a bare server that tells 200 listeners. */
export async function benchFanOut(): Promise<string> {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-fan-'));
  const server = await startOurs(dir);
  const floorServer = await startServer([process.execPath, join(root, 'bench/floor-events.mjs')]);
  const ours = new Client(server.origin);
  const floor = new Client(floorServer.origin);
  try {
    await ours.enterDemo('coordinator');
    const { items } = JSON.parse((await ours.ok('/api/bins')).body) as { items: { id: string }[] };
    const check = () => JSON.stringify({ id: uuid7(), binId: items[0]?.id, happenedAt: new Date().toISOString(), squeeze: 'damp' });
    const floorTimes = timesOf(await spread(`${floor.origin}/events`, '', () => floor.ok('/say', { method: 'POST', body: '{}' })));
    const times = timesOf(
      await spread(`${ours.origin}/api/events`, ours.cookie, () => ours.ok('/api/checks', { method: 'POST', body: check() })),
    );
    const row = (name: string, { medianMs, p95Ms }: typeof times) => [name, medianMs, p95Ms, medianMs / floorTimes.medianMs];
    return table(
      ['until the last of 200 pages knows', 'median ms', 'p95 ms', 'x bare'],
      [row('bare events', floorTimes), row('a logged check', times)],
    );
  } finally {
    ours.close();
    floor.close();
    agent.destroy();
    await Promise.all([server.stop(), floorServer.stop()]);
    rmSync(dir, { recursive: true, force: true });
  }
}
