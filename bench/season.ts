/** The report of 60 bins over five years, 100,000 entries, in every form, beside the same totals by a spreadsheet program (criterion D1). */
import { mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root } from '../scripts/lib.mjs';
import { copyOf, openCast } from '../tests/cast.ts';
import { FIVE_YEARS, type Kept, keepFiveYears, oursIn, sheetOf, theirsIn } from '../tests/outside/five-years.ts';
import { csvFilter, soffice } from '../tests/outside/soffice.ts';
import { Client } from './client.ts';
import { table, timesOf } from './measure.ts';
import { endedChildrenS, forgetMostMemory, mostMemoryMb, processorS } from './process-use.ts';
import { startServer } from './server-process.ts';

const AGAIN = 5;
const MS_PER_S = 1000;
/** So little of the processor in so long: what the start left to do is done. */
const QUIET = { s: 0.02, withinMs: 1000, mostMs: 120_000 };
const FORMS = [
  ['report as JSON', '/api/season?'],
  ['page', '/season?'],
  ['totals as CSV', '/api/season.csv?'],
  ['every figure as CSV', '/api/season-report.csv?'],
  ['XLSX', '/api/season.xlsx?'],
  ['PDF', '/api/season.pdf?'],
] as const;

interface Stage {
  readonly dataDir: string;
  readonly cookie: string;
  readonly kept: readonly Kept[];
}

async function stage(): Promise<Stage> {
  const cast = await openCast({ at: new Date().toISOString() });
  try {
    const kept = keepFiveYears(cast.store);
    // A report tells of retired bins as of others, and the model, which is not measured here, leaves them alone.
    cast.store.sqlite.exec("UPDATE bin SET state = 'retired'");
    const cookie = cast.cookie('owner');
    const dataDir = copyOf(cast);
    renameSync(join(dataDir, 'cast.db'), join(dataDir, 'own.db'));
    return { dataDir, cookie, kept };
  } finally {
    await cast.close();
  }
}

async function untilQuiet(pid: number): Promise<void> {
  const until = performance.now() + QUIET.mostMs;
  for (let before = processorS(pid); performance.now() < until; ) {
    await new Promise((resolve) => setTimeout(resolve, QUIET.withinMs));
    const now = processorS(pid);
    if (now - before <= QUIET.s) return;
    before = now;
  }
  throw new Error(`the server was not quiet within ${QUIET.mostMs} ms of its start`);
}

interface Form {
  readonly firstS: number;
  readonly medianS: number;
  readonly processorS: number;
  readonly heldMb: number;
  readonly mostMb: number;
  readonly kB: number;
  readonly body: string;
}

/** One form by a server of its own, so that the memory is what this form needs. */
async function measure({ dataDir, cookie }: Stage, path: string): Promise<Form> {
  const command = [process.execPath, join(root, 'apps/api/build/server.mjs'), '--own'];
  const server = await startServer(command, { env: { DATA_DIR: dataDir, NODE_ENV: 'production' } });
  const client = new Client(server.origin);
  client.cookie = cookie;
  try {
    await untilQuiet(server.pid);
    forgetMostMemory(server.pid);
    const heldMb = mostMemoryMb(server.pid);
    const ask = async () => {
      const [since, sinceS] = [performance.now(), processorS(server.pid)];
      const answer = await client.ok(path + FIVE_YEARS);
      return { answer, ms: performance.now() - since, s: processorS(server.pid) - sinceS };
    };
    const first = await ask();
    const again = [];
    for (let n = 0; n < AGAIN; n += 1) again.push(await ask());
    return {
      firstS: first.ms / MS_PER_S,
      medianS: timesOf(again.map(({ ms }) => ms)).medianMs / MS_PER_S,
      processorS: again.reduce((sum, { s }) => sum + s, 0) / AGAIN,
      heldMb,
      mostMb: mostMemoryMb(server.pid),
      kB: first.answer.bytes / MS_PER_S,
      body: first.answer.body,
    };
  } finally {
    client.close();
    await server.stop();
  }
}

interface Theirs {
  readonly s: number;
  readonly processorS: number;
  readonly found: string;
}

/** LibreOffice from its start to its end with one sheet. */
function theirs(dir: string, content: string): Theirs {
  const file = join(dir, 'entries.csv');
  writeFileSync(file, content);
  const [since, sinceS] = [performance.now(), endedChildrenS()];
  const found = soffice([file], 'csv', csvFilter(',')).get('entries.csv')!;
  return { s: (performance.now() - since) / MS_PER_S, processorS: endedChildrenS() - sinceS, found };
}

export async function benchSeason(): Promise<string> {
  const here = await stage();
  const dir = mkdtempSync(join(tmpdir(), 'season-bench-'));
  try {
    const forms: (readonly [string, Form])[] = [];
    for (const [name, path] of FORMS) forms.push([name, await measure(here, path)]);
    theirs(dir, '1');
    const [start, sums] = [theirs(dir, '1'), theirs(dir, sheetOf(here.kept))];
    const [ours, found] = [oursIn(JSON.parse(forms[0]![1].body)), theirsIn(sums.found)];
    if (JSON.stringify(ours) !== JSON.stringify(found)) throw new Error('the grams of the report are not those that LibreOffice found');
    const bareS = sums.processorS - start.processorS;
    const rows = forms.map(([name, { firstS, medianS, processorS: s, heldMb, mostMb, kB }]) => [
      ...[name, firstS, medianS, s, s / sums.processorS, s / bareS, heldMb, mostMb, kB],
    ]);
    const head = ['what', 'first s', 'again s', 'processor s', 'x LibreOffice', 'x without its start', 'held before MB', 'most MB', 'kB'];
    return [
      table(head, rows),
      '',
      `LibreOffice, sums of each bin from the same rows by SUMIFS: ${sums.s.toFixed(2)} s, processor ${sums.processorS.toFixed(2)} s; of that its own start ${start.s.toFixed(2)} and ${start.processorS.toFixed(2)} s. It found the same grams.`,
    ].join('\n');
  } finally {
    for (const one of [dir, here.dataDir]) rmSync(one, { recursive: true, force: true });
  }
}
