/** Data in and out in bulk: a list of 10,000 rows, and 60 bins with 100,000 entries as one file (criteria G1, G11). */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { openZip } from '../apps/api/src/services/bring-back/open-zip.ts';
import { root } from '../scripts/lib.mjs';
import { fillUp } from './board.ts';
import { Client } from './client.ts';
import { table } from './measure.ts';
import { mostMemoryMb, processorS } from './process-use.ts';
import { AS_ON_4_GB, startOurs } from './server-process.ts';
import { uuid7 } from './uuid7.ts';

const ROWS = 10_000;
const ENTRIES = 100_000;
const BINS = 60;
const LOOK_MS = 20;
const MB = 1_048_576;

type Row = readonly [what: string, seconds: number, processorS: number, memoryMb: number, note: string];

const sheetOf = (codes: readonly string[], day: string): string =>
  [
    'Date,Bin,Food,Weight (kg),Notes',
    ...Array.from({ length: ROWS }, (_, at) => `${day},${codes[at % codes.length]},Apple,${(0.1 + (at % 40) / 20).toFixed(2)},row ${at}`),
  ].join('\n');

async function takeSheet(dir: string, nodeFlags: readonly string[], where: string): Promise<Row[]> {
  // The first start makes the demonstration, and its memory is not what is asked here.
  await (await startOurs(dir)).stop();
  const server = await startOurs(dir, nodeFlags);
  const client = new Client(server.origin);
  try {
    await client.enterDemo('coordinator');
    await fillUp(client, BINS);
    const bins: { code: string; state: string }[] = JSON.parse((await client.ok('/api/bins')).body).items;
    const codes = bins.filter(({ state }) => state === 'active').map(({ code }) => code);
    const { today } = JSON.parse((await client.ok('/api/session')).body);
    const content = Buffer.from(sheetOf(codes, today)).toString('base64');
    const before = mostMemoryMb(server.pid);
    const timed = async (path: string, body: object) => {
      const [since, sinceS] = [performance.now(), processorS(server.pid)];
      const answer = await client.ok(path, { method: 'POST', body: JSON.stringify(body) });
      const s = (performance.now() - since) / 1000;
      return { s, cpu: processorS(server.pid) - sinceS, mb: mostMemoryMb(server.pid), counts: JSON.parse(answer.body).counts };
    };
    const id = uuid7();
    const shown = await timed('/api/imports', { id, kind: 'feedings', fileName: 'log.csv', content });
    const taken = await timed(`/api/imports/${id}/taken`, {});
    // The next run takes the same list into the same store.
    await client.ok(`/api/imports/${id}`, { method: 'DELETE' });
    return [
      [`server before, ${where}`, 0, 0, before, `${codes.length} bins, the board never looked at`],
      [`preview of ${ROWS} rows`, shown.s, shown.cpu, shown.mb, `${shown.counts.ready} ready, ${shown.counts.refused} refused`],
      ['taken', taken.s, taken.cpu, taken.mb, `${taken.counts.imported} imported`],
    ];
  } finally {
    client.close();
    await server.stop();
  }
}

/** Feedings until there are so many entries, over five years. */
function fillEntries(file: string): number {
  const db = new Database(file);
  const has = Number(db.prepare('SELECT count(*) FROM entry').pluck().get());
  const bins = db.prepare("SELECT id FROM bin WHERE state = 'active' ORDER BY id LIMIT ?").pluck().all(BINS) as string[];
  const person = db.prepare("SELECT person_id FROM membership WHERE role = 'volunteer' LIMIT 1").pluck().get();
  const entry = db.prepare(
    `INSERT INTO entry (id, kind, bin_id, person_id, happened_at, local_date, received_at, note)
     VALUES (@id, 'feeding', @bin, @person, @at, substr(@at, 1, 10), @at, 'as every week')`,
  );
  const feeding = db.prepare('INSERT INTO feeding (entry_id, zone) VALUES (?, 1)');
  const item = db.prepare("INSERT INTO feeding_item (entry_id, seq, material_id, grams, how) VALUES (?, 0, 'apple', ?, 'weighed')");
  const days = db.prepare("SELECT strftime('%Y-%m-%dT10:00:00.000Z', '2021-11-01', ? || ' days')").pluck();
  db.transaction(() => {
    for (let at = has; at < ENTRIES; at += 1) {
      const id = uuid7();
      entry.run({ id, bin: bins[at % bins.length], person, at: days.get(at % 1_800) });
      feeding.run(id);
      item.run(id, 100 + (at % 1_900));
    }
  })();
  const count = Number(db.prepare('SELECT count(*) FROM entry').pluck().get());
  db.close();
  return count;
}

/** One command of ours to its end. */
function command(args: readonly string[], dataDir: string): Promise<{ s: number; cpu: number; mb: number }> {
  const since = performance.now();
  const env = { ...process.env, DATA_DIR: dataDir, NODE_ENV: 'production' };
  const child = spawn(process.execPath, [join(root, 'apps/api/build/cli.mjs'), ...args], { env, stdio: ['ignore', 'ignore', 'pipe'] });
  let [mb, cpu] = [0, 0];
  const timer = setInterval(() => {
    mb = Math.max(mb, mostMemoryMb(child.pid ?? 0));
    cpu = Math.max(cpu, processorS(child.pid ?? 0));
  }, LOOK_MS);
  let said = '';
  child.stderr.on('data', (part: Buffer) => {
    said += part.toString();
  });
  return new Promise((resolve, reject) => {
    child.once('exit', (code) => {
      clearInterval(timer);
      if (code === 0) resolve({ s: (performance.now() - since) / 1000, cpu, mb });
      else reject(new Error(`middenry ${args.join(' ')} ended with ${code}: ${said}`));
    });
  });
}

/** A copy of the store by SQLite itself: nothing that reads all of it and writes it again could be quicker. */
function copyS(file: string, to: string): number {
  const db = new Database(file, { readonly: true });
  const since = performance.now();
  db.prepare('VACUUM INTO ?').run(to);
  const s = (performance.now() - since) / 1000;
  db.close();
  return s;
}

async function carryAll(dir: string, other: string): Promise<{ rows: Row[]; floorS: number }> {
  const file = join(dir, 'demo.db');
  const entries = fillEntries(file);
  const floorS = copyS(file, join(other, 'copy.db'));
  const zip = join(other, 'first.zip');
  const out = await command(['export', zip, '--demo'], dir);
  const home = join(other, 'home');
  const back = await command(['import', zip, '--demo'], home);
  const again = join(other, 'again.zip');
  await command(['export', again, '--demo'], home);
  const files = await sameFiles(zip, again);
  const sizes = `${entries} entries, ${(statSync(file).size / MB).toFixed(0)} MB store, ${(statSync(zip).size / MB).toFixed(0)} MB zip`;
  return {
    floorS,
    rows: [
      ['export', out.s, out.cpu, out.mb, sizes],
      ['return', back.s, back.cpu, back.mb, `exported again, ${files} files of tables and photos are the same`],
    ],
  };
}

/** @throws {Error} naming the first file that came out otherwise */
async function sameFiles(one: string, other: string): Promise<number> {
  const [first, second] = [await openZip(one), await openZip(other)];
  const names = first.names.filter((name) => /^(data|tables|photos)\//.test(name));
  for (const name of names)
    if ((await first.hash(name)) !== (await second.hash(name))) throw new Error(`${name} is not the same after it was brought back`);
  first.close();
  second.close();
  return names.length;
}

export async function benchCarry(): Promise<string> {
  const [dir, other] = [mkdtempSync(join(tmpdir(), 'middenry-carry-')), mkdtempSync(join(tmpdir(), 'middenry-carried-'))];
  try {
    const sheet = [...(await takeSheet(dir, AS_ON_4_GB, 'as with 4 GB')), ...(await takeSheet(dir, [], 'with the memory of this machine'))];
    const { rows, floorS } = await carryAll(dir, other);
    const shown = [...sheet, ...rows].map((row): (string | number)[] => [...row]);
    return [
      table(['what', 's', 'processor s', 'most memory MB', 'note'], shown),
      '',
      `A bare copy of the store by SQLite took ${floorS.toFixed(2)} s: the export ${(rows[0]![1] / floorS).toFixed(1)} x, the return ${(rows[1]![1] / floorS).toFixed(1)} x as long.`,
    ].join('\n');
  } finally {
    for (const one of [dir, other]) rmSync(one, { recursive: true, force: true });
  }
}
