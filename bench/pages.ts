import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { root } from '../scripts/lib.mjs';
import { Client } from './client.ts';
import { inTurn, table } from './measure.ts';
import { startOurs, startServer } from './server-process.ts';
import { uuid7 } from './uuid7.ts';

/** The demonstration's database as the server made it, copied by SQLite itself so that nothing in the log file is missed. */
function copyStore(dataDir: string, to: string): void {
  const db = new Database(join(dataDir, 'demo.db'), { fileMustExist: true });
  db.prepare('VACUUM INTO ?').run(to);
  db.close();
}

const feeding = (binId: string, materialId: string): string =>
  JSON.stringify({
    id: uuid7(),
    binId,
    happenedAt: new Date().toISOString(),
    zone: 1,
    items: [{ materialId, massKg: 0.5, how: 'weighed' }],
  });

interface Chosen {
  readonly binId: string;
  readonly binPath: string;
  readonly materialId: string;
}

async function choose(ours: Client): Promise<Chosen> {
  const bins = JSON.parse((await ours.ok('/api/bins')).body) as { items: { id: string; code: string }[] };
  const materials = JSON.parse((await ours.ok('/api/materials')).body) as { items: { id: string; kind: string; hidden: boolean }[] };
  const bin = bins.items[0];
  const food = materials.items.find(({ kind, hidden }) => kind === 'food' && !hidden);
  if (!bin || !food) throw new Error('the demonstration has no bin or no food');
  const paths = [`/bins/${bin.code}`, `/bins/${bin.code.toLowerCase()}`, `/bins/${bin.id}`];
  for (const path of paths)
    if ((await ours.send(path, { headers: { accept: 'text/html' } })).status === 200)
      return { binId: bin.id, binPath: path, materialId: food.id };
  throw new Error(`no page of a bin at ${paths.join(', ')}`);
}

/** Everything that is measured: ours, and the floor below it. */
function worksOf(ours: Client, floor: Client, { binId, binPath, materialId }: Chosen) {
  const html = { headers: { accept: 'text/html' } };
  const log = (): Promise<unknown> => ours.ok('/api/feedings', { method: 'POST', body: feeding(binId, materialId) });
  return {
    'bare route': () => floor.ok('/bare'),
    'bare SQL of the board': () => floor.ok('/board'),
    'bare SQL of a bin': () => floor.ok(`/bin/${binId}`),
    'bare SQL of a feeding': () => floor.ok('/feeding', { method: 'POST', body: JSON.stringify({ binId, materialId }) }),
    'board, JSON': () => ours.ok('/api/board'),
    'board, page': () => ours.ok('/', html),
    'bin, JSON': () => ours.ok(`/api/bins/${binId}/outlook`),
    'bin, page': () => ours.ok(binPath, html),
    'one logged feeding': log,
    'bare SQL of a feeding and the board': async () => {
      await floor.ok('/feeding', { method: 'POST', body: JSON.stringify({ binId, materialId }) });
      await floor.ok('/board');
    },
    // Nothing kept from before helps here: the bin's state has to be worked out anew.
    'feeding, then board, JSON': async () => {
      await log();
      await ours.ok('/api/board');
    },
  };
}

const floorOf = {
  board: 'bare SQL of the board',
  bin: 'bare SQL of a bin',
  one: 'bare SQL of a feeding',
  feeding: 'bare SQL of a feeding and the board',
} as const;

/** Board, bin page and one logged feeding, each as a ratio to a bare Fastify route and to the bare SQL, in one run. */
export async function benchPages(): Promise<string> {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-bench-'));
  const server = await startOurs(join(dir, 'ours'));
  const ours = new Client(server.origin);
  const copy = join(dir, 'floor.db');
  copyStore(join(dir, 'ours'), copy);
  const floorServer = await startServer([process.execPath, join(root, 'bench/floor-server.mjs'), copy]);
  const floor = new Client(floorServer.origin);
  try {
    await ours.enterDemo('coordinator');
    const works = worksOf(ours, floor, await choose(ours));
    const times = await inTurn(works, { warmUps: 60, count: 25, rounds: 8 });
    const rows = (Object.keys(times) as (keyof typeof times)[]).map((name) => {
      const { medianMs, p95Ms } = times[name];
      const below = floorOf[name.split(/[ ,]/)[0] as keyof typeof floorOf];
      return [name, medianMs, p95Ms, medianMs / times['bare route'].medianMs, below ? medianMs / times[below].medianMs : ''];
    });
    const sizes = await Promise.all(['/api/board', '/'].map(async (path) => `${path} ${(await ours.ok(path)).bytes} bytes`));
    return [
      table(['what', 'median ms', 'p95 ms', 'x bare route', 'x bare SQL'], rows),
      '',
      `One client, one connection, uncompressed: ${sizes.join(', ')}.`,
    ].join('\n');
  } finally {
    ours.close();
    floor.close();
    await Promise.all([server.stop(), floorServer.stop()]);
    rmSync(dir, { recursive: true, force: true });
  }
}
