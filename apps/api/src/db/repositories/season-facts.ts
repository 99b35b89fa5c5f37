/** What a season says beside its totals: who, what went wrong, where castings went, and how complete the log is. */
import type { Leftover, SeasonBin, SeasonCheck } from '@middenry/domain';
import { all } from '../rows.ts';
import type { Store } from '../store.ts';
import type { Destination } from './entry-types.ts';
import { type SeasonRange, seasonParams } from './season.ts';

/** All entries in the order they lie in, as season.ts reads them. */
const ENTRIES = `FROM entry e NOT INDEXED JOIN bin b ON b.id = e.bin_id`;
const OF_SITES = `e.undone_at IS NULL AND (@siteIds IS NULL OR b.site_id IN (SELECT value FROM json_each(@siteIds)))`;
const SHIFTS = `h.local_date BETWEEN @from AND @to AND h.cancelled_at IS NULL
    AND (@siteIds IS NULL OR h.site_id IN (SELECT value FROM json_each(@siteIds)))`;

/** Different people who came to a shift, alone or with their class, or noted something. */
export function seasonPeople(store: Store, range: SeasonRange): { readonly adults: number; readonly young: number } {
  const rows = all<{ isAdult: number; people: number }>(
    store,
    `SELECT p.is_adult AS isAdult, count(*) AS people FROM person p WHERE p.id IN (
       SELECT e.person_id ${ENTRIES} WHERE e.local_date BETWEEN @from AND @to AND ${OF_SITES}
       UNION
       SELECT u.person_id FROM sign_up u JOIN shift h ON h.id = u.shift_id WHERE u.attended = 1 AND u.given_back_at IS NULL AND ${SHIFTS}
       UNION
       SELECT k.person_id FROM shift_group_pupil k JOIN shift_group g ON g.id = k.group_id JOIN shift h ON h.id = g.shift_id
         WHERE g.checked_in_at IS NOT NULL AND g.ended_at IS NULL AND ${SHIFTS})
     GROUP BY p.is_adult`,
    seasonParams(range),
  );
  const of = (isAdult: number) => rows.find((row) => row.isAdult === isAdult)?.people ?? 0;
  return { adults: of(1), young: of(0) };
}

export const seasonDestinations = (store: Store, range: SeasonRange): { readonly destination: Destination; readonly grams: number }[] =>
  all(
    store,
    `SELECT h.destination, sum(h.grams) AS grams ${ENTRIES} JOIN harvest h ON h.entry_id = e.id
     WHERE e.local_date BETWEEN @from AND @to AND ${OF_SITES} GROUP BY h.destination ORDER BY sum(h.grams) DESC, h.destination`,
    seasonParams(range),
  );

/** Checks of these days and of the time before, so that a problem which was there already is not found anew. */
export function seasonChecks(store: Store, range: SeasonRange): SeasonCheck[] {
  const rows = all<Omit<SeasonCheck, 'leftovers'> & { readonly leftovers: string }>(
    store,
    `SELECT e.bin_id AS binId, e.local_date AS localDate, e.happened_at AS happenedAt, c.smell, c.squeeze,
        (SELECT json_group_array(l.left_over) FROM check_leftover l WHERE l.entry_id = e.id) AS leftovers
       ${ENTRIES} JOIN bin_check c ON c.entry_id = e.id WHERE e.local_date BETWEEN @from AND @to AND ${OF_SITES}`,
    seasonParams(range),
  );
  return rows.map((row) => ({ ...row, leftovers: JSON.parse(row.leftovers) as Leftover[] }));
}

/** The first day of each week of the season on which somebody noted something at a bin; weeks are counted from the season's first day. */
export const seasonNotedDays = (store: Store, range: SeasonRange): { readonly binId: string; readonly localDate: string }[] =>
  all(
    store,
    `SELECT e.bin_id AS binId, min(e.local_date) AS localDate ${ENTRIES} WHERE e.local_date BETWEEN @from AND @to AND ${OF_SITES}
     GROUP BY e.bin_id, CAST((julianday(e.local_date) - julianday(@from)) / 7 AS INTEGER)`,
    seasonParams(range),
  );

/** How long each bin was kept: one that is retired until its last entry, any other until today. */
export const seasonBins = (store: Store, range: SeasonRange & { readonly today: string }): SeasonBin[] =>
  all(
    store,
    `SELECT b.id AS binId, b.started_on AS keptFrom,
        CASE b.state WHEN 'retired' THEN ifnull((SELECT max(e.local_date) FROM entry e WHERE e.bin_id = b.id AND e.undone_at IS NULL), b.started_on)
          ELSE min(@to, @today) END AS keptTo
       FROM bin b WHERE @siteIds IS NULL OR b.site_id IN (SELECT value FROM json_each(@siteIds))`,
    seasonParams(range),
  );
