/** What a season adds up to. The domain does the adding; here are the rows and the names. */
import type { Season, SeasonBefore, SeasonExpected, SeasonMaterial, SeasonRow } from '@middenry/contract';
import {
  castingsExpected,
  castingsOut,
  completenessOf,
  gramsPerWeek,
  problemsOf,
  SEEN_PROBLEMS,
  type SeasonGroup,
  type SeasonRow as SeasonRecord,
  seasonOf,
  seasonRates,
  seasonTotal,
  sharesOf,
  storeBalance,
  tallyOf,
  yearBefore,
} from '@middenry/domain';
import type * as z from 'zod';
import type { Context } from '../context.ts';
import { listBins } from '../db/repositories/bin.ts';
import { seasonWeighedHarvests } from '../db/repositories/harvest-expected.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import { type SeasonRange, seasonRecords } from '../db/repositories/season.ts';
import { seasonGifts, seasonStoreFlows } from '../db/repositories/season-castings.ts';
import { seasonBins, seasonChecks, seasonDestinations, seasonNotedDays, seasonPeople } from '../db/repositories/season-facts.ts';
import { listSites } from '../db/repositories/site.ts';
import { USUAL_BEDDING } from './bedding.ts';
import { climateOfScraps } from './climate-factors.ts';
import { moistureOf } from './harvest.ts';
import { addDays, daysBetween } from './local-time.ts';
import { materialNames } from './materials.ts';

type Row = z.output<typeof SeasonRow>;
type Before = z.output<typeof SeasonBefore>;

/** Hours belong to a shift at a site and not to one bin, so that the rows still add up they stand in a row of their own. */
export const NOT_ONE_BIN = { key: 'shifts', label: 'Shifts, not one bin' } as const;
/** Fewer young people than this are not told as a number (criteria D6). */
const FEWEST_YOUNG_TOLD = 5;
/** How far back a problem may have begun that is still there. */
const PROBLEM_DAYS_BEFORE = 180;
const LONGEST_MONTH_DAYS = 31;

/** By months; by weeks when their first day is given. */
export const recordsOf = (call: Context, range: SeasonRange, weeksFrom: string | null = null): SeasonRecord[] =>
  seasonRecords(call.store, { ...range, usualBedding: USUAL_BEDDING, weeksFrom }).map((noted) => {
    // Most rows are none, and a copy of each would cost as much as all the adding up.
    if (noted.type !== 'harvest') return noted;
    const { squeeze, dishMg, wetMg, dryMg, ...record } = noted;
    return { ...record, moistureFracWb: moistureOf({ squeeze, dishMg, wetMg, dryMg })?.moistureFracWb ?? null };
  });

export function readSeason(call: Context, range: SeasonRange): Season {
  const records = recordsOf(call, range);
  const report = seasonOf(records);
  const today = todayOf(call);
  const days = daysPast(range, today);
  const sites = new Map(listSites(call.store).map((site) => [site.id, site.name]));
  const bins = new Map(listBins(call.store).map((bin) => [bin.id, `${bin.code} ${bin.name}`]));
  const { from, to } = range;
  return {
    ...{ from, to, days },
    total: report.total,
    rates: seasonRates(report.total, days),
    bySite: rowsOf(report.bySite, sites, days),
    byBin: [...rowsOf(report.byBin, bins, days), ...timeOfNoBin(records, days)],
    byMonth: report.byMonth.map((group) => rowOf(group, group.key, daysOfMonth(group.key, range, today))),
    byMaterial: materialsIn(call, report.byMaterial, days),
    destinations: destinationsIn(call, range),
    castings: castingsIn(call, range, sites),
    ...beside(call, range),
    climate: climateOfScraps(call, records),
    before: seasonBefore(call, range),
  };
}

function seasonBefore(call: Context, { from, to, siteIds }: SeasonRange): Before {
  const range = { from: yearBefore(from), to: yearBefore(to), siteIds };
  return { from: range.from, to: range.to, total: seasonTotal(recordsOf(call, range)), ...beside(call, range) };
}

function beside(call: Context, range: SeasonRange): Pick<Before, 'people' | 'problems' | 'log'> {
  const { adults, young } = seasonPeople(call.store, range);
  const problems = problemsOf(seasonChecks(call.store, { ...range, from: addDays(range.from, -PROBLEM_DAYS_BEFORE) }), range);
  const byKind = SEEN_PROBLEMS.map((problem) => ({ problem, ...tallyOf(problems.filter((each) => each.problem === problem)) }));
  return {
    people: { adults, young: young > 0 && young < FEWEST_YOUNG_TOLD ? null : young },
    problems: { ...tallyOf(problems), byKind },
    log: completenessOf(range, seasonBins(call.store, { ...range, today: todayOf(call) }), seasonNotedDays(call.store, range)),
  };
}

const rowOf = ({ key, totals }: SeasonGroup, label: string, days: number): Row => ({
  ...{ key, label, figures: totals },
  rates: seasonRates(totals, days),
});

/** Groups in the order of their names where they have any, else of their keys. */
function rowsOf(groups: readonly SeasonGroup[], labels: ReadonlyMap<string, string>, days: number): Row[] {
  return groups.map((group) => rowOf(group, labels.get(group.key) ?? group.key, days)).sort((a, b) => (a.label < b.label ? -1 : 1));
}

function timeOfNoBin(records: readonly SeasonRecord[], days: number): Row[] {
  const times = records.filter((record) => record.binId === null);
  return times.length === 0 ? [] : [rowOf({ key: NOT_ONE_BIN.key, totals: seasonTotal(times) }, NOT_ONE_BIN.label, days)];
}

/** The most first. */
function materialsIn(call: Context, groups: readonly SeasonGroup[], days: number): z.output<typeof SeasonMaterial>[] {
  const nameOf = materialNames(call);
  const all = groups.map(({ key, totals: { fedWeighedG, fedEstimatedG, beddingG } }) => {
    const grams = fedWeighedG + fedEstimatedG + beddingG;
    const row = { key, label: nameOf(key), fedWeighedG, fedEstimatedG, beddingG, perWeekG: gramsPerWeek(grams, days) };
    return { grams, row };
  });
  all.sort((a, b) => b.grams - a.grams || (a.row.label < b.row.label ? -1 : 1));
  const percents = sharesOf(all.map(({ grams }) => grams));
  return all.map(({ row }, at) => ({ ...row, percent: percents[at]! }));
}

function destinationsIn(call: Context, range: SeasonRange): Season['destinations'] {
  const rows = seasonDestinations(call.store, range);
  const percents = sharesOf(rows.map(({ grams }) => grams));
  return rows.map((row, at) => ({ ...row, percent: percents[at]! }));
}

function castingsIn(call: Context, range: SeasonRange, sites: ReadonlyMap<string, string>): Season['castings'] {
  const flows = seasonStoreFlows(call.store, range);
  const curingG = flows.reduce((sum, { on, readyOn, grams }) => (on <= range.to && (readyOn ?? '') > range.to ? sum + grams : sum), 0);
  const store = { ...storeBalance(flows, range), curingG };
  return { givenOut: [...castingsOut(seasonGifts(call.store, range))], store, expected: expectedIn(call, range, sites) };
}

function expectedIn(call: Context, range: SeasonRange, sites: ReadonlyMap<string, string>): z.output<typeof SeasonExpected> {
  const harvests = seasonWeighedHarvests(call.store, range).map(({ lowG, midG, highG, ...harvest }) => ({
    ...harvest,
    expected: lowG === null || midG === null || highG === null ? null : { low: lowG, mid: midG, high: highG },
  }));
  const { bySite, ...sums } = castingsExpected(harvests);
  const labelled = bySite.map((row) => ({ ...row, label: sites.get(row.key) ?? row.key }));
  return { ...sums, bySite: labelled.sort((a, b) => (a.label < b.label ? -1 : 1)) };
}

type Span = Pick<SeasonRange, 'from' | 'to'>;

/** Days of a season that have begun: rates of one under way count no days to come. */
export const daysPast = ({ from, to }: Span, today: string): number => Math.max(1, daysBetween(from, to < today ? to : today) + 1);

const todayOf = (call: Context): string => call.today(findProgramme(call.store)?.timeZone ?? 'UTC');

/** Of a month, the days that are in the season. */
function daysOfMonth(month: string, { from, to }: Span, today: string): number {
  const first = `${month}-01`;
  const last = addDays(`${addDays(first, LONGEST_MONTH_DAYS).slice(0, 7)}-01`, -1);
  return daysPast({ from: first > from ? first : from, to: last < to ? last : to }, today);
}
