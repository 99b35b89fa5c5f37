/** The season as a workbook: typed cells, true dates, no formulas, the head kept in sight (criteria D9). */
import type { KeptSeason } from '@middenry/contract';
import {
  GRAMS_PER_KG,
  GRAMS_PER_LB,
  LITRES_PER_US_GALLON,
  MILLILITRES_PER_LITRE,
  MINUTES_PER_HOUR,
  SEASON_COLUMN_IDS,
  SEASON_COLUMNS,
  type SeasonColumnId,
} from '@middenry/domain';
import type { Cell, Row, Sheet } from 'write-excel-file/node';
import type { Context } from '../context.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import type { SeasonRange } from '../db/repositories/season.ts';
import { disarmed } from './csv.ts';
import type { AskedOwn } from './named-seasons.ts';
import { readPublishedSeason } from './published-seasons.ts';
import { readSeason } from './season.ts';
import { SEASON_HEADINGS } from './season-csv.ts';

/** In a cell for a number, where an older report has none. */
const NOT_COUNTED = 'not counted then';
type Units = 'metric' | 'us';
interface Measure {
  readonly name: string;
  /** How many stored grams, millilitres or minutes make one. */
  readonly size: number;
  readonly format: string;
}

/** Cells hold the whole value and show it rounded, so that a sum of cells is the sum of grams. */
const MEASURES: Readonly<Record<Units, Readonly<Record<'g' | 'ml' | 'min' | 'count', Measure>>>> = {
  metric: {
    g: { name: 'kg', size: GRAMS_PER_KG, format: '0.000' },
    ml: { name: 'litres', size: MILLILITRES_PER_LITRE, format: '0.000' },
    min: { name: 'hours', size: MINUTES_PER_HOUR, format: '0.00' },
    count: { name: '', size: 1, format: '0' },
  },
  us: {
    g: { name: 'lb', size: GRAMS_PER_LB, format: '0.000' },
    ml: { name: 'US gallons', size: LITRES_PER_US_GALLON * MILLILITRES_PER_LITRE, format: '0.000' },
    min: { name: 'hours', size: MINUTES_PER_HOUR, format: '0.00' },
    count: { name: '', size: 1, format: '0' },
  },
};
const DATE_FORMAT = 'yyyy-mm-dd';
const NAME_WIDTH = 34;
const NUMBER_WIDTH = 18;

/** Of the log as it stands; its headings are English, the names of materials are in the reader's language. */
export const seasonXlsx = (call: Context, range: SeasonRange): Promise<Buffer> => workbookOf(call, readSeason(call, range));

export const publishedXlsx = (call: AskedOwn, id: string): Promise<Buffer> => workbookOf(call, readPublishedSeason(call, id).season);

async function workbookOf(call: Context, season: KeptSeason): Promise<Buffer> {
  const { default: writeXlsxFile } = await import('write-excel-file/node');
  const measures = MEASURES[findProgramme(call.store)?.units ?? 'metric'];
  return writeXlsxFile(sheetsOf(season, measures)).toBuffer();
}

type Measures = (typeof MEASURES)[Units];

function sheetsOf(season: KeptSeason, measures: Measures): Sheet<never>[] {
  const headings = SEASON_COLUMN_IDS.map((id) => headingOf(id, measures));
  const groups = (rows: KeptSeason['bySite'], nameOf: (row: KeptSeason['bySite'][number]) => Cell) => [
    ...rows.map((row) => [nameOf(row), ...figureCells(row.figures, measures)]),
    [text('Total'), ...figureCells(season.total, measures)],
  ];
  const label = (row: KeptSeason['bySite'][number]) => text(row.label);
  const mass = (grams: number | null) => numberCell(grams, measures.g);
  const unit = measures.g.name;
  return [
    sheet('Season', ['What', 'These days', 'A year before'], figureSheet(season, measures)),
    sheet('Sites', ['Site', ...headings], groups(season.bySite, label)),
    sheet('Bins', ['Bin', ...headings], groups(season.byBin, label)),
    sheet(
      'Months',
      ['Month', ...headings],
      groups(season.byMonth, (row) => dateCell(`${row.key}-01`)),
    ),
    sheet(
      'Materials',
      ['Material', `Fed, weighed, ${unit}`, `Fed, estimated, ${unit}`, `Bedding, ${unit}`],
      season.byMaterial.map((row) => [text(row.label), mass(row.fedWeighedG), mass(row.fedEstimatedG), mass(row.beddingG)]),
    ),
    sheet(
      'Castings',
      ['Where they went', `Castings, ${unit}`],
      season.destinations.map((row) => [text(row.destination), mass(row.grams)]),
    ),
    sheet(
      'Problems',
      ['Problem', 'Found', 'Solved'],
      season.problems.byKind.map((row) => [text(row.problem), count(row.found), count(row.solved)]),
    ),
    ...(season.castings === null ? [] : castingsSheets(season.castings, measures)),
    ...(season.climate === null ? [] : [climateSheet(season.climate, measures)]),
  ];
}

function figureSheet(season: KeptSeason, measures: Measures): Row[] {
  const { before } = season;
  const columns = SEASON_COLUMN_IDS.map((id) => {
    const measure = measures[SEASON_COLUMNS[id].unit];
    return [text(headingOf(id, measures)), numberCell(season.total[id], measure), numberCell(before.total[id], measure)];
  });
  const young = (n: number | null) => n ?? text('fewer than 5');
  return [
    [text('From'), dateCell(season.from), dateCell(before.from)],
    [text('To'), dateCell(season.to), dateCell(before.to)],
    ...columns,
    [text('Adults'), count(season.people.adults), count(before.people.adults)],
    [text('Young people'), young(season.people.young), young(before.people.young)],
    [text('Problems found'), count(season.problems.found), count(before.problems.found)],
    [text('Problems solved'), count(season.problems.solved), count(before.problems.solved)],
    [text('Weeks of bins'), count(season.log.binWeeks), count(before.log.binWeeks)],
    [text('Weeks of bins with an entry'), count(season.log.binWeeksNoted), count(before.log.binWeeksNoted)],
  ];
}

type Castings = NonNullable<KeptSeason['castings']>;

function castingsSheets({ givenOut, store, expected }: Castings, { g, ml }: Measures): Sheet<never>[] {
  const line = (name: string, grams: number | null) => [text(name), numberCell(grams, g)];
  return [
    sheet(
      'Given out',
      ['Who got it', `From the bin, ${g.name}`, `From the store, ${g.name}`, `Together, ${g.name}`, `Volume, ${ml.name}`],
      givenOut.map((row) => [
        text(row.destination),
        ...[row.fromBinG, row.fromStoreG, row.grams].map((grams) => numberCell(grams, g)),
        numberCell(row.ml, ml),
      ]),
    ),
    sheet(
      'Store',
      ['What', `Castings, ${g.name}`],
      [
        line('In store at the beginning', store.beginG),
        line('Came in of harvests', store.harvestedG),
        line('Brought in', store.broughtInG),
        line('Given out', lessened(store.givenOutG)),
        line('Written off', lessened(store.writtenOffG)),
        line('In store at the end', store.endG),
        line('Of that, not ready yet', store.curingG),
      ],
    ),
    ...(expected === null ? [] : [expectedSheet(expected, g)]),
  ];
}

function expectedSheet({ bySite, notExpected, ...all }: NonNullable<Castings['expected']>, g: Measure): Sheet<never> {
  const line = (name: string, { harvests, weighedG, expectedG: { low, mid, high } }: typeof all) => [
    text(name),
    count(harvests),
    ...[weighedG, mid, low, high].map((grams) => numberCell(grams, g)),
  ];
  const heads = [`Weighed, ${g.name}`, `Expected in the bins, ${g.name}`, `At least, ${g.name}`, `At most, ${g.name}`];
  return sheet(
    'Expected',
    ['Site', 'Weighed harvests', ...heads],
    [...bySite.map((row) => line(row.label, row)), line('Total', all), [text('Harvests without an expectation'), count(notExpected)]],
  );
}

function climateSheet({ factors, ...figure }: NonNullable<KeptSeason['climate']>, { g }: Measures): Sheet<never> {
  const line = (name: string, { low, mid, high }: typeof figure.scrapsG) => [text(name), ...[low, mid, high].map((n) => numberCell(n, g))];
  const factor = (name: string, { low, mid, high }: typeof factors.landfill) => [text(name), low, mid, high];
  const said = (name: string, value: string) => [text(name), text(value)];
  return sheet(
    'Climate gases',
    ['What', 'At least', 'In the middle', 'At most'],
    [
      line(`Landfill gases avoided, ${g.name} CO2e`, figure.landfillAvoidedG),
      line(`Given off by the bins, ${g.name} CO2e`, figure.processG),
      line(`The first less the second, ${g.name} CO2e`, figure.differenceG),
      line(`Scraps counted, ${g.name}`, figure.scrapsG),
      [text('Would have gone to a landfill, %'), text(''), factors.landfillPercent, text('')],
      factor('Landfill, kg CO2e for 1000 kg', factors.landfill),
      factor('Bins, kg CO2e for 1000 kg', factors.process),
      ...[said('Factors', factors.name), said('Edition', factors.edition), said('Region', factors.region), said('Basis', factors.basis)],
      said('Source', factors.source),
      [text('Confirmed'), dateCell(factors.confirmedAt.slice(0, DATE_FORMAT.length))],
    ],
  );
}

const sheet = (name: string, head: readonly string[], rows: readonly Row[]): Sheet<never> => ({
  ...{ sheet: name, stickyRowsCount: 1 },
  columns: head.map((_, at) => ({ width: at === 0 ? NAME_WIDTH : NUMBER_WIDTH })),
  data: [head.map((word) => ({ value: word, type: String, fontWeight: 'bold' as const })), ...rows],
});

/** `fed_weighed_g` becomes `Fed weighed, kg`. */
function headingOf(id: SeasonColumnId, measures: Measures): string {
  const { unit } = SEASON_COLUMNS[id];
  const bare = SEASON_HEADINGS[id].replace(/_(g|ml)$/, '').replace(/^minutes_/, 'time_');
  const words = `${bare[0]!.toUpperCase()}${bare.slice(1).replaceAll('_', ' ')}`;
  return unit === 'count' ? words : `${words}, ${measures[unit].name}`;
}

const figureCells = (totals: KeptSeason['total'], measures: Measures): Cell[] =>
  SEASON_COLUMN_IDS.map((id) => numberCell(totals[id], measures[SEASON_COLUMNS[id].unit]));

const numberCell = (stored: number | null, { size, format }: Measure): Cell =>
  stored === null ? text(NOT_COUNTED) : { value: stored / size, type: Number, format };
const count = (n: number | null): Cell => n ?? text(NOT_COUNTED);
/** Signed as the balance adds up. */
const lessened = (grams: number | null): number | null => (grams === null ? null : 0 - grams);
const dateCell = (localDate: string): Cell => ({ value: new Date(`${localDate}T00:00:00Z`), type: Date, format: DATE_FORMAT });

/** Never a formula; without signs that a workbook cannot hold. */
const text = (value: string): Cell => ({
  value: disarmed(
    Buffer.from(value)
      .toString()
      .replace(/\p{Cc}/gu, ' '),
  ),
  type: String,
});
