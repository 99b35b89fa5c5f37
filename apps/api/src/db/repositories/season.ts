/** What a season adds up from: plain rows, one per entry or sign-up, in whole grams and minutes. */

import { all, one } from '../rows.ts';
import type { Store } from '../store.ts';

export interface SeasonEntryRow {
  readonly kind: 'feeding' | 'check' | 'harvest';
  readonly siteId: string;
  readonly siteName: string;
  readonly binId: string;
  readonly binCode: string;
  readonly binName: string;
  readonly localDate: string;
  readonly weighedG: number;
  readonly estimatedG: number;
}

export interface SeasonHoursRow {
  readonly siteId: string;
  readonly siteName: string;
  readonly localDate: string;
  readonly minutes: number;
}

export interface SeasonRange {
  readonly from: string;
  readonly to: string;
  /** Only these sites; null = all. */
  readonly siteIds: readonly string[] | null;
}

const only = (range: SeasonRange): string | null => (range.siteIds ? JSON.stringify(range.siteIds) : null);

export function seasonEntries(store: Store, range: SeasonRange): SeasonEntryRow[] {
  return all<SeasonEntryRow>(
    store,
    `SELECT e.kind, b.site_id AS siteId, s.name AS siteName, b.id AS binId, b.code AS binCode, b.name AS binName, e.local_date AS localDate,
       CASE e.kind
         WHEN 'feeding' THEN (SELECT ifnull(sum(i.grams), 0) FROM feeding_item i WHERE i.entry_id = e.id AND i.how = 'weighed')
         WHEN 'harvest' THEN ifnull((SELECT h.grams FROM harvest h WHERE h.entry_id = e.id AND h.how = 'weighed'), 0) ELSE 0 END AS weighedG,
       CASE e.kind
         WHEN 'feeding' THEN (SELECT ifnull(sum(i.grams), 0) FROM feeding_item i WHERE i.entry_id = e.id AND i.how <> 'weighed')
         WHEN 'harvest' THEN ifnull((SELECT h.grams FROM harvest h WHERE h.entry_id = e.id AND h.how <> 'weighed'), 0) ELSE 0 END AS estimatedG
     FROM entry e JOIN bin b ON b.id = e.bin_id JOIN site s ON s.id = b.site_id
     WHERE e.local_date BETWEEN ?1 AND ?2 AND e.kind IN ('feeding', 'check', 'harvest') AND e.undone_at IS NULL
       AND (?3 IS NULL OR b.site_id IN (SELECT value FROM json_each(?3)))
     ORDER BY s.name, b.place_order, b.code, e.local_date, e.id`,
    range.from,
    range.to,
    only(range),
  );
}

/** Time given by who came: the minutes they said, or else the length of the shift. */
export function seasonHours(store: Store, range: SeasonRange): SeasonHoursRow[] {
  return all<SeasonHoursRow>(
    store,
    `SELECT h.site_id AS siteId, s.name AS siteName, h.local_date AS localDate, ifnull(u.minutes, h.minutes) AS minutes
     FROM sign_up u JOIN shift h ON h.id = u.shift_id JOIN site s ON s.id = h.site_id
     WHERE h.local_date BETWEEN ?1 AND ?2 AND u.attended = 1 AND u.given_back_at IS NULL AND h.cancelled_at IS NULL
       AND (?3 IS NULL OR h.site_id IN (SELECT value FROM json_each(?3)))
     ORDER BY s.name, h.local_date, u.id`,
    range.from,
    range.to,
    only(range),
  );
}

/** Different people who came to a shift or noted something. */
export function seasonPeople(store: Store, range: SeasonRange): number {
  const row = one<{ n: number }>(
    store,
    `SELECT count(*) AS n FROM (
       SELECT e.person_id FROM entry e JOIN bin b ON b.id = e.bin_id
       WHERE e.local_date BETWEEN ?1 AND ?2 AND e.person_id IS NOT NULL AND e.undone_at IS NULL
         AND (?3 IS NULL OR b.site_id IN (SELECT value FROM json_each(?3)))
       UNION
       SELECT u.person_id FROM sign_up u JOIN shift h ON h.id = u.shift_id
       WHERE h.local_date BETWEEN ?1 AND ?2 AND u.attended = 1 AND u.given_back_at IS NULL AND h.cancelled_at IS NULL
         AND (?3 IS NULL OR h.site_id IN (SELECT value FROM json_each(?3))))`,
    range.from,
    range.to,
    only(range),
  );
  return row?.n ?? 0;
}
