/** What a season adds up to. The domain does the adding; here are the rows and the names. */
import type { Season, SeasonRow } from '@middenry/contract';
import { type SeasonReport, seasonOf } from '@middenry/domain';
import type * as z from 'zod';
import type { Context } from '../context.ts';
import { listBins } from '../db/repositories/bin.ts';
import { type SeasonRange, type SeasonRecord, seasonPeople, seasonRecords } from '../db/repositories/season.ts';
import { listSites } from '../db/repositories/site.ts';

type Row = z.output<typeof SeasonRow>;

/** Hours belong to a shift at a site and not to one bin, so that the rows still add up they stand in a row of their own. */
export const NOT_ONE_BIN = { key: 'shifts', label: 'Shifts, not one bin' } as const;

export function readSeason(call: Context, range: SeasonRange): Season {
  const records = seasonRecords(call.store, range);
  const report = seasonOf(records);
  const names = seasonNames(call);
  return {
    from: range.from,
    to: range.to,
    total: report.total,
    bySite: rowsOf(report.bySite, names.sites),
    byBin: [...rowsOf(report.byBin, names.bins), ...timeOfNoBin(records)],
    byMonth: rowsOf(report.byMonth, new Map()),
    people: seasonPeople(call.store, range),
  };
}

interface SeasonNames {
  readonly sites: ReadonlyMap<string, string>;
  readonly bins: ReadonlyMap<string, string>;
}

function seasonNames(call: Context): SeasonNames {
  return {
    sites: new Map(listSites(call.store).map((site) => [site.id, site.name])),
    bins: new Map(listBins(call.store).map((bin) => [bin.id, `${bin.code} ${bin.name}`])),
  };
}

/** Groups in the order of their names where they have any, else of their keys. */
function rowsOf(groups: SeasonReport['bySite'], labels: ReadonlyMap<string, string>): Row[] {
  const rows = groups.map(({ key, totals }) => ({ key, label: labels.get(key) ?? key, figures: totals }));
  return rows.sort((a, b) => (a.label < b.label ? -1 : 1));
}

function timeOfNoBin(records: readonly SeasonRecord[]): Row[] {
  const times = records.filter((record) => record.binId === null);
  return times.length === 0 ? [] : [{ ...NOT_ONE_BIN, figures: seasonOf(times).total }];
}
