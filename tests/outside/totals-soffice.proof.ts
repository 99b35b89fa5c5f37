/**
 * Random programmes read in every form that the report has, and added up by LibreOffice (criteria D3, D7). It must be on the machine.
 *
 * What rounding is allowed: CSV and the cells of the workbook, none; in print three places of a kilogram or pound and two of an hour,
 * so that the next whole gram or minute is meant; on the page one place, beside whole grams and minutes in each cell.
 */
import { mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Season } from '@middenry/contract';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Running, startServer } from '../browser/started.ts';
import { copyOf, openCast } from '../cast.ts';
import { csvFilter, soffice } from './soffice.ts';
import { ofBook, ofEveryFigure, ofTables, ofTotals, ofTyped, UNITS, type Units } from './totals/asked.ts';
import { addSecondBinAtSchool, keepProgramme, PROGRAMMES, spanOf, type Typed } from './totals/programmes.ts';
import { shownAmiss, shownInPrint, shownOnPage } from './totals/shown.ts';
import { bookWithSums, csvOf, foundIn, foundInBook, type Sum, withSums } from './totals/summed.ts';

const SITE_NAMES = ['Long Meadow', 'Hilltop School'];
/** What a double holds of a hundred tonnes in grams is nearer than this by far. */
const GRAM_SLACK = 1e-4;
const typed: Typed[][] = [];
const sumsOf = new Map<string, readonly Sum[]>();
const amiss: string[] = [];
let shownCells = 0;
let server: Running;
let cookie: string;
let dir: string;

async function keepAll(): Promise<string> {
  // Of now, so that the server's own clock still knows the session.
  const cast = await openCast({ at: new Date().toISOString() });
  try {
    await addSecondBinAtSchool(cast);
    for (const programme of PROGRAMMES) typed.push(await keepProgramme(cast, programme));
    cookie = cast.cookie('owner');
    const dataDir = copyOf(cast);
    renameSync(join(dataDir, 'cast.db'), join(dataDir, 'own.db'));
    return dataDir;
  } finally {
    await cast.close();
  }
}

beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'totals-soffice-'));
  server = await startServer({ dataDir: await keepAll(), flags: ['--own'] });
}, 300_000);
afterAll(async () => {
  await server?.stop();
  rmSync(dir, { recursive: true, force: true });
});

async function read(path: string): Promise<Buffer> {
  const answer = await fetch(server.origin + path, { headers: { cookie, 'accept-language': 'en' } });
  expect([path, answer.status]).toEqual([path, 200]);
  return Buffer.from(await answer.arrayBuffer());
}

/** Keeps what LibreOffice is to read under a name of its own. */
function keep(name: string, content: string | Buffer, sums: readonly Sum[]): string {
  const file = join(dir, name);
  writeFileSync(file, content);
  sumsOf.set(name, sums);
  return file;
}

/** Sheets and the workbook of one programme in one set of units. */
async function filesOf(programme: number, units: Units): Promise<{ readonly sheets: string[]; readonly book: string }> {
  const span = spanOf(programme);
  const name = `${units}-${programme}`;
  const season: Season = JSON.parse((await read(`/api/season?${span}`)).toString());
  const { harvestedG, fedWeighedG, fedEstimatedG, beddingG, minutes } = season.total;
  expect([name, Math.min(harvestedG, fedWeighedG, fedEstimatedG, beddingG, minutes) > 0]).toEqual([name, true]);
  const sheets: string[] = [];
  const { rows, sums } = ofTyped(typed[programme]!, season);
  sheets.push(keep(`typed-${name}.csv`, withSums(csvOf(rows), sums), sums));
  for (const profile of ['data', 'spreadsheet'] as const) {
    const totals = (await read(`/api/season.csv?${span}&profile=${profile}`)).toString();
    const figures = (await read(`/api/season-report.csv?${span}&profile=${profile}`)).toString();
    expect([totals, figures].map((text) => text.startsWith('\uFEFF'))).toEqual(Array(2).fill(profile === 'spreadsheet'));
    const [asked, askedFigures] = [ofTotals(totals, season, SITE_NAMES), ofEveryFigure(figures, season)];
    sheets.push(keep(`totals-${profile}-${name}.csv`, withSums(totals, asked), asked));
    sheets.push(keep(`figures-${profile}-${name}.csv`, withSums(figures, askedFigures), askedFigures));
  }
  const print = ofTables(await shownInPrint(await read(`/api/season.pdf?${span}`), season, units));
  sheets.push(keep(`print-${name}.csv`, withSums(csvOf(print.rows), print.sums), print.sums));
  const html = (await read(`/season?${span}`)).toString();
  const page = ofTables(shownOnPage(html, season));
  sheets.push(keep(`page-${name}.csv`, withSums(csvOf(page.rows), page.sums), page.sums));
  const shown = shownAmiss(html, units);
  shownCells += shown.cells;
  amiss.push(...shown.amiss);
  return { sheets, book: keep(`book-${name}.xlsx`, await read(`/api/season.xlsx?${span}`), ofBook(season, units)) };
}

async function setUnits(units: Units): Promise<void> {
  const answer = await fetch(`${server.origin}/api/programme`, {
    method: 'PATCH',
    headers: { cookie, origin: server.origin, 'content-type': 'application/json' },
    body: JSON.stringify({ units }),
  });
  expect(answer.status).toBe(200);
}

const wrong = (file: string, sums: readonly Sum[], found: readonly number[]): string[] =>
  sums.flatMap(({ what, wanted }, at) =>
    Math.abs(found[at]! - wanted) < GRAM_SLACK ? [] : [`${file}: ${what} is ${wanted}, LibreOffice finds ${found[at]}`],
  );

test('D3, D7: random programmes have the same grams in JSON, CSV, workbook, print and page as LibreOffice finds, in both units', async () => {
  const files: Awaited<ReturnType<typeof filesOf>>[] = [];
  for (const units of UNITS) {
    await setUnits(units);
    for (const programme of PROGRAMMES) files.push(await filesOf(programme, units));
  }
  const faults: string[] = [];
  const sheets = files.flatMap((each) => each.sheets);
  for (const [file, csv] of soffice(sheets, 'csv', csvFilter(',')))
    faults.push(...wrong(file, sumsOf.get(file)!, foundIn(csv, sumsOf.get(file)!)));
  const books = soffice(
    files.map(({ book }) => book),
    'fods',
  );
  const asked = [...books].map(([file, flat]) =>
    keep(file.replace('.xlsx', '.asked.fods'), bookWithSums(flat, sumsOf.get(file)!), sumsOf.get(file)!),
  );
  const answered = soffice(asked, 'fods');
  for (const [file, flat] of answered) faults.push(...wrong(file, sumsOf.get(file)!, foundInBook(flat)));
  const count = [...sheets, ...asked].reduce((sum, file) => sum + sumsOf.get(file.slice(dir.length + 1))!.length, 0);
  process.stdout.write(
    `${count} sums of ${sheets.length} CSV files and ${asked.length} workbooks; ${shownCells} cells of pages beside their grams\n`,
  );
  expect(faults).toEqual([]);
  expect(amiss).toEqual([]);
  expect(count).toBeGreaterThan(1000);
  expect(new Set(typed.flat().map(({ isUndone }) => isUndone)).size).toBe(2);
}, 900_000);
