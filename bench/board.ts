/** The board of many bins: what is sent and how long it takes, then what a slow phone makes of it (criterion A19). */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { addDays } from '../apps/api/src/services/local-time.ts';
import { root } from '../scripts/lib.mjs';
import { slowPhone } from './board-phone.ts';
import { Client } from './client.ts';
import { inTurn, table } from './measure.ts';
import { startOurs, startServer } from './server-process.ts';
import { uuid7 } from './uuid7.ts';

const SIZES = [60, 600] as const;
export const OLD_DAYS = 14;
const FIRST_LOOK_WITHIN_MS = 1_200_000;

/** A server, or one without a network. */
type Asked = Pick<Client, 'ok'>;
const json = async (client: Asked, path: string) => JSON.parse((await client.ok(path)).body);
const post = (client: Asked, path: string, body: object) => client.ok(path, { method: 'POST', body: JSON.stringify(body) });

/** Bins of two weeks or as old as told, each fed and looked at, until there are so many. */
export async function fillUp(client: Asked, count: number, oldDays = OLD_DAYS): Promise<void> {
  const { items: sites } = await json(client, '/api/sites');
  const { items: bins } = await json(client, '/api/bins');
  const { items: stuff } = await json(client, '/api/materials');
  const food = stuff.find(({ kind, hidden }: { kind: string; hidden: boolean }) => kind === 'food' && !hidden).id;
  const { today } = await json(client, '/api/session');
  const ago = (days: number) => addDays(today, -days);
  const morning = (days: number) => `${ago(days)}T08:00:00.000Z`;
  for (let n = bins.length; n < count; n += 1) {
    const id = uuid7();
    await post(client, '/api/bins', {
      id,
      siteId: sites[n % sites.length].id,
      // A code has four characters at most.
      code: n < 1000 ? `Y${n}` : `${n}`,
      name: `Bin ${n}`,
      kind: 'tote',
      areaM2: 0.2,
      depthM: 0.35,
      zones: 2,
      startedOn: ago(oldDays),
      wormsKg: 0.5,
      bedWaterKg: 4,
      bed: [{ materialId: 'cardboard_corrugated', massKg: 2 }],
      placeOrder: n,
    });
    const items = [{ materialId: food, massKg: 0.3 + (n % 7) / 2, how: 'weighed' }];
    await post(client, '/api/feedings', { id: uuid7(), binId: id, happenedAt: morning(2 + (n % 9)), zone: 1, items });
    await post(client, '/api/checks', { id: uuid7(), binId: id, happenedAt: morning(1 + (n % 12)), smell: 'earthy' });
  }
}

/** The first look works every bin out; until it has, the board names those that are missing. */
export async function firstLook(client: Client): Promise<number> {
  const since = performance.now();
  while (performance.now() - since < FIRST_LOOK_WITHIN_MS) {
    const { status, body } = await client.send('/api/board');
    if (status === 200 && JSON.parse(body).waiting.length === 0) return performance.now() - since;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  throw new Error(`the board did not answer within ${FIRST_LOOK_WITHIN_MS} ms`);
}

async function sizesOf(client: Client): Promise<readonly number[]> {
  const [data, page] = [await client.ok('/api/board'), await client.ok('/', { headers: { accept: 'text/html' } })];
  return [data.bytes, gzipSync(data.body).length, page.bytes, gzipSync(page.body).length].map((bytes) => bytes / 1000);
}

/** Payload and time of the board for 60 and, where wanted, for 600 bins, and each page on a slow phone beside a static page. */
export async function benchBoard({ many }: { many: boolean }): Promise<string> {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-board-'));
  const server = await startOurs(dir);
  const floorServer = await startServer([process.execPath, join(root, 'bench/floor-text.mjs')]);
  const [ours, floor] = [new Client(server.origin), new Client(floorServer.origin)];
  const rows: (string | number)[][] = [];
  const phones: string[] = [];
  try {
    await ours.enterDemo('coordinator');
    for (const count of SIZES.filter((size) => many || size === SIZES[0])) {
      await fillUp(ours, count);
      const firstS = (await firstLook(ours)) / 1000;
      const html = { headers: { accept: 'text/html' } };
      const works = { bare: () => floor.ok('/bare'), data: () => ours.ok('/api/board'), page: () => ours.ok('/', html) };
      const { bare, data, page } = await inTurn(works, { warmUps: 5, count: 10, rounds: 3 });
      const sizes = await sizesOf(ours);
      rows.push([`${count}`, firstS, data.medianMs, data.medianMs / bare.medianMs, page.medianMs, page.medianMs / bare.medianMs, ...sizes]);
      phones.push(await slowPhone(server.origin, count));
    }
    const head = ['bins', 'first look s', 'JSON ms', 'x bare', 'page ms', 'x bare', 'JSON kB', 'gzip', 'page kB', 'gzip'];
    return [table(head, rows), ...phones].join('\n\n');
  } finally {
    ours.close();
    floor.close();
    await Promise.all([server.stop(), floorServer.stop()]);
    rmSync(dir, { recursive: true, force: true });
  }
}
