/** Air temperatures read at a site, typed or brought as a file. */
import type { AirReadings, AirReadingsNew } from '@middenry/contract';
import Papa from 'papaparse';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { type AirReadingRow, airReadings, putAirReading } from '../db/repositories/air-reading.ts';
import { findSite } from '../db/repositories/site.ts';
import { write } from '../db/store.ts';
import { refuse } from '../refusal.ts';

type View = z.output<typeof AirReadings>;

export function listAirReadings(call: Context, siteId: string, span: { from?: string | undefined; to?: string | undefined }): View {
  if (findSite(call.store, siteId) === undefined) throw refuse('not-found');
  return { items: airReadings(call.store, { siteId, from: span.from ?? '0000', to: span.to ?? '9999' }) };
}

/** All of the readings or none; a faulty line is named by its number. */
export function putAirReadings(call: Signed, siteId: string, body: z.output<typeof AirReadingsNew>): View {
  const site = findSite(call.store, siteId);
  if (site === undefined) throw refuse('not-found');
  const readings = body.items ?? readingsOfCsv(body.csv ?? '');
  const today = call.today(site.timeZone);
  if (readings.some(({ on }) => on > today)) throw refuse('date-in-future');
  write(call.store, () => {
    for (const reading of readings) putAirReading(call.store, siteId, reading);
    call.audit('site.air-readings', siteId, { days: readings.length });
  });
  return { items: readings };
}

const MOST_FAULTS = 50;

export function readingsOfCsv(csv: string): AirReadingRow[] {
  const rows = Papa.parse<string[]>(csv.replace(/^\uFEFF/, ''), { skipEmptyLines: 'greedy' }).data;
  const hasHeading = rows[0] !== undefined && !/\d/.test(rows[0].join(''));
  const read = rows.slice(hasHeading ? 1 : 0).map((cells, at) => readingOf(cells, at + (hasHeading ? 2 : 1)));
  const faults = read.flatMap((row) => ('fault' in row ? [row.fault] : []));
  if (faults.length > 0) throw refuse('invalid', { errors: faults.slice(0, MOST_FAULTS) });
  if (read.length === 0) throw refuse('invalid', { errors: [{ pointer: '/csv', message: 'holds no rows' }] });
  return read as AirReadingRow[];
}

function readingOf(cells: readonly string[], line: number): AirReadingRow | { readonly fault: { pointer: string; message: string } } {
  const fault = (message: string) => ({ fault: { pointer: `/csv/${line}`, message: `line ${line}: ${message}` } });
  const [on = '', degrees = ''] = cells.map((cell) => cell.trim());
  if (!isDate(on)) return fault('the first column must be a date like 2026-11-25');
  // A decimal comma is what half of Europe's spreadsheets write.
  const meanC = /^-?\d{1,2}([.,]\d+)?$/.test(degrees) ? Number(degrees.replace(',', '.')) : Number.NaN;
  return Number.isNaN(meanC) || Math.abs(meanC) > 60 ? fault('the second column must be a temperature from -60 to 60 C') : { on, meanC };
}

function isDate(text: string): boolean {
  const date = new Date(`${text}T00:00:00Z`);
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text);
}
