import { SEASON_COLUMN_IDS, type SeasonColumnId, type SeasonRow as SeasonRecord, seasonTotal } from '@middenry/domain';
import type { Context } from '../context.ts';
import { listBins } from '../db/repositories/bin.ts';
import type { SeasonRange } from '../db/repositories/season.ts';
import { listSites } from '../db/repositories/site.ts';
import { type Cell, type CsvProfile, csvText } from './csv.ts';
import { recordsOf } from './season.ts';

export const SEASON_HEADINGS = {
  harvestedG: 'harvested_g',
  fedWeighedG: 'fed_weighed_g',
  fedEstimatedG: 'fed_estimated_g',
  minutes: 'minutes_given',
  feedings: 'feedings',
  checks: 'checks',
  harvests: 'harvests',
  beddingG: 'bedding_g',
  castingsMl: 'castings_ml',
  castingsMeasuredMl: 'castings_measured_ml',
  castingsCorrectedG: 'castings_corrected_g',
  castingsMoistureNotedG: 'castings_moisture_noted_g',
  shifts: 'shifts',
  places: 'places',
  placesTaken: 'places_taken',
  placesCame: 'places_came',
  minutesPlanned: 'minutes_planned',
} as const satisfies Record<SeasonColumnId, string>;

/** The season as rows by site, bin and month and a last row with the total of them all. */
export function seasonCsv(call: Context, range: SeasonRange, profile: CsvProfile): string {
  const records = recordsOf(call, range);
  const sites = new Map(listSites(call.store).map((site) => [site.id, site.name]));
  const bins = new Map(listBins(call.store).map((bin) => [bin.id, bin]));
  const head: Cell[] = ['row', 'site', 'bin', 'bin_name', 'month', ...SEASON_COLUMN_IDS.map((id) => SEASON_HEADINGS[id])];
  const rows = [...groupsOf(records).values()].map((group): Cell[] => {
    const { siteId, binId, localDate } = group[0]!;
    const bin = binId === null ? undefined : bins.get(binId);
    const names = [bin ? 'bin' : 'shifts', sites.get(siteId) ?? '', bin?.code ?? '', bin?.name ?? '', monthOf(localDate)];
    return [...names, ...figuresOf(group)];
  });
  rows.sort((a, b) => (sortKey(a) < sortKey(b) ? -1 : 1));
  return csvText([head, ...rows, ['total', '', '', '', '', ...figuresOf(records)]], profile);
}

/** Says in its name what span and which profile it is, as a CSV file has no other place for it. */
export const seasonFileName = (range: SeasonRange, ending: string): string => `season-${range.from}-to-${range.to}${ending}`;

function groupsOf(records: readonly SeasonRecord[]): Map<string, SeasonRecord[]> {
  const groups = new Map<string, SeasonRecord[]>();
  for (const record of records) {
    const key = `${record.siteId} ${record.binId} ${monthOf(record.localDate)}`;
    const group = groups.get(key);
    if (group) group.push(record);
    else groups.set(key, [record]);
  }
  return groups;
}

function figuresOf(records: readonly SeasonRecord[]): number[] {
  const total = seasonTotal(records);
  return SEASON_COLUMN_IDS.map((id) => total[id]);
}

/** By site, then bins in the order of their codes with the shifts last, then month. */
const sortKey = (row: readonly Cell[]): string => [row[1], row[0], row[2], row[4]].join('\u0000');
const monthOf = (localDate: string): string => localDate.slice(0, 7);
