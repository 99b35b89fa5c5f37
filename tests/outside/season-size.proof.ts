/** The report of 60 bins over five years, 100,000 entries (criteria D1), and the same totals by a general spreadsheet program in the same run. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Cast, openCast } from '../cast.ts';
import { type ByBin, FIVE_YEARS, type Kept, keepFiveYears, oursIn, sheetOf, theirsIn } from './five-years.ts';
import { csvFilter, soffice } from './soffice.ts';

const MOST_MS = 5000;

let cast: Cast;
let dir: string;
let kept: Kept[];

beforeAll(async () => {
  cast = await openCast({ at: '2026-11-25T10:00:00.000Z' });
  dir = mkdtempSync(join(tmpdir(), 'season-size-'));
  kept = keepFiveYears(cast.store);
}, 300_000);
afterAll(async () => {
  await cast?.close();
  rmSync(dir, { recursive: true, force: true });
});

/** Processor time of this process, all threads: what the answer takes at most where nobody else asks for the processor. */
async function timed(url: string): Promise<{ readonly cpuMs: number; readonly bytes: Buffer }> {
  const since = performance.now();
  const cpuSince = process.cpuUsage();
  const answer = await cast.app.inject({ url, headers: { cookie: cast.cookie('owner') } });
  const [ms, cpu] = [performance.now() - since, process.cpuUsage(cpuSince)];
  const cpuMs = Math.round((cpu.user + cpu.system) / 1000);
  expect([url, answer.statusCode]).toEqual([url, 200]);
  process.stdout.write(`${url}: ${Math.round(ms)} ms, processor ${cpuMs} ms, ${answer.rawPayload.length} bytes\n`);
  return { cpuMs, bytes: answer.rawPayload };
}

test('D1: the report of 100,000 entries takes less than five seconds of the processor in every form, with the grams that a spreadsheet program finds', async () => {
  const forms = ['season?', 'season.csv?', 'season-report.csv?', 'season.xlsx?', 'season.pdf?'];
  let season: ByBin | null = null;
  const slow: string[] = [];
  for (const form of forms) {
    const { cpuMs, bytes } = await timed(`/api/${form}${FIVE_YEARS}`);
    slow.push(...(cpuMs < MOST_MS ? [] : [`${form} ${cpuMs} ms`]));
    season ??= JSON.parse(bytes.toString());
  }
  process.stdout.write(`resident memory: ${Math.round(process.memoryUsage().rss / 1_000_000)} MB\n`);
  const file = join(dir, 'entries.csv');
  writeFileSync(file, sheetOf(kept));
  const since = performance.now();
  const found = soffice([file], 'csv', csvFilter(',')).get('entries.csv')!;
  process.stdout.write(`LibreOffice, sums of each bin from the same rows: ${Math.round(performance.now() - since)} ms\n`);
  const ours = oursIn(season!);
  expect(ours).toEqual(theirsIn(found));
  expect(Math.min(...ours.flat())).toBeGreaterThan(0);
  expect(slow).toEqual([]);
});
