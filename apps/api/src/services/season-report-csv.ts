/** Every figure of a report as a CSV of one figure a row, so that what stands in its tables, in whatever shape, is in one file. */
import type { KeptSeason } from '@middenry/contract';
import { SEASON_COLUMN_IDS, SEASON_COLUMNS } from '@middenry/domain';
import type { Context } from '../context.ts';
import type { SeasonRange } from '../db/repositories/season.ts';
import { type Cell, type CsvProfile, csvText } from './csv.ts';
import type { AskedOwn } from './named-seasons.ts';
import { readPublishedSeason } from './published-seasons.ts';
import { readSeason } from './season.ts';
import { SEASON_HEADINGS } from './season-csv.ts';

export const seasonReportCsv = (call: Context, range: SeasonRange, profile: CsvProfile): string =>
  csvText([HEAD, ...rowsOf(readSeason({ ...call, language: 'en' }, range))], profile);

export const publishedReportCsv = (call: AskedOwn, id: string, profile: CsvProfile): string =>
  csvText([HEAD, ...rowsOf(readPublishedSeason(call, id).season)], profile);

/** Where an older report has no number. */
const NOT_COUNTED = 'not counted then';
const HEAD: readonly Cell[] = ['section', 'name', 'figure', 'value', 'unit'];
type Row = Cell[];
type Part = KeptSeason | KeptSeason['before'];

function rowsOf(season: KeptSeason): Row[] {
  const { castings, climate } = season;
  return [
    ...partRows('season', season),
    ...partRows('year-before', season.before),
    ...season.bySite.flatMap(({ label, figures }) => totalRows('site', label, figures)),
    ...season.byBin.flatMap(({ label, figures }) => totalRows('bin', label, figures)),
    ...season.byMonth.flatMap(({ key, figures }) => totalRows('month', key, figures)),
    ...season.byMaterial.flatMap(({ label, fedWeighedG, fedEstimatedG, beddingG }) =>
      counts('material', label, 'g', { fed_weighed_g: fedWeighedG, fed_estimated_g: fedEstimatedG, bedding_g: beddingG }),
    ),
    ...season.destinations.flatMap(({ destination, grams }) => counts('harvest-went', destination, 'g', { harvested_g: grams })),
    ...season.problems.byKind.flatMap(({ problem, found, solved }) => counts('problem', problem, 'count', { found, solved })),
    ...(castings === null ? [] : castingsRows(castings)),
    ...(climate === null ? [] : climateRows(climate)),
  ];
}

const totalRows = (section: string, name: string, total: KeptSeason['total']): Row[] =>
  SEASON_COLUMN_IDS.map((id) => [section, name, SEASON_HEADINGS[id], total[id] ?? NOT_COUNTED, SEASON_COLUMNS[id].unit]);

const counts = (section: string, name: string, unit: string, figures: Readonly<Record<string, Cell | null>>): Row[] =>
  Object.entries(figures).map(([figure, value]) => [section, name, figure, value ?? NOT_COUNTED, unit]);

function partRows(section: string, part: Part): Row[] {
  const { from, to, total, people, problems, log } = part;
  return [
    ...counts(section, '', 'date', { from, to }),
    ...totalRows(section, '', total),
    ...counts(section, '', 'count', {
      adults: people.adults,
      young_people: people.young ?? '<5',
      ...{ problems_found: problems.found, problems_solved: problems.solved },
      ...{ bins_kept: log.binsKept, bin_weeks: log.binWeeks, bin_weeks_noted: log.binWeeksNoted },
    }),
  ];
}

const lessened = (grams: number | null): number | null => (grams === null ? null : 0 - grams);
type Castings = NonNullable<KeptSeason['castings']>;

function castingsRows({ givenOut, store, expected }: Castings): Row[] {
  return [
    ...givenOut.flatMap(({ destination, fromBinG, fromStoreG, grams, ml }) => [
      ...counts('given-out', destination, 'g', { from_bin_g: fromBinG, from_store_g: fromStoreG, together_g: grams }),
      ...counts('given-out', destination, 'ml', { volume_ml: ml }),
    ]),
    ...counts('store', '', 'g', {
      ...{ begin_g: store.beginG, harvested_g: store.harvestedG, brought_in_g: store.broughtInG },
      ...{ given_out_g: lessened(store.givenOutG), written_off_g: lessened(store.writtenOffG), end_g: store.endG, curing_g: store.curingG },
    }),
    ...(expected === null ? [] : expectedRows(expected)),
  ];
}

/** The last rows, without a name, are of all sites. */
function expectedRows({ bySite, notExpected, ...all }: NonNullable<Castings['expected']>): Row[] {
  const rows = (name: string, { harvests, weighedG, expectedG: { low, mid, high } }: typeof all) => [
    ...counts('expected', name, 'g', { weighed_g: weighedG, expected_low_g: low, expected_mid_g: mid, expected_high_g: high }),
    ...counts('expected', name, 'count', { harvests }),
  ];
  const left = counts('expected', '', 'count', { harvests_without_expectation: notExpected });
  return [...bySite.flatMap((row) => rows(row.label, row)), ...rows('', all), ...left];
}

function climateRows({ factors, scrapsG, notScrapsG, ...lines }: NonNullable<KeptSeason['climate']>): Row[] {
  const { landfillAvoidedG, processG, differenceG } = lines;
  const range = (name: string, unit: string, { low, mid, high }: typeof scrapsG) => counts('climate', name, unit, { low, mid, high });
  return [
    ...range('scraps_counted', 'g', scrapsG),
    ...counts('climate', 'bedding_logged_as_food', 'g', { left_out_g: notScrapsG }),
    ...range('landfill_avoided', 'g CO2e', landfillAvoidedG),
    ...range('given_off_by_bins', 'g CO2e', processG),
    ...range('difference', 'g CO2e', differenceG),
    ...range('factor_landfill', 'kg CO2e per 1000 kg', factors.landfill),
    ...range('factor_bins', 'kg CO2e per 1000 kg', factors.process),
    ...counts('climate', 'factors', '%', { would_have_gone_to_landfill: factors.landfillPercent }),
    ...counts('climate', 'factors', 'text', {
      ...{ set: factors.name, edition: factors.edition, region: factors.region, basis: factors.basis },
      ...{ source: factors.source, confirmed_at: factors.confirmedAt },
    }),
  ];
}
