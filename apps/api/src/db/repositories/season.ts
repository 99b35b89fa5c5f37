/** What a season adds up from: plain rows, one per feeding item, check, harvest or attendance, in whole grams and minutes. */
import type { HowMeasured } from '@middenry/domain';
import { all, one } from '../rows.ts';
import type { Store } from '../store.ts';

export interface SeasonRecord {
  readonly type: 'feeding' | 'check' | 'harvest' | 'attendance';
  readonly entryId: string;
  readonly siteId: string;
  readonly binId: string | null;
  readonly localDate: string;
  readonly grams: number;
  readonly how: HowMeasured | null;
  readonly minutes: number;
}

export interface SeasonRange {
  readonly from: string;
  readonly to: string;
  /** Only these sites; null = all. */
  readonly siteIds: readonly string[] | null;
}

const ENTRIES = `FROM entry e JOIN bin b ON b.id = e.bin_id`;
const IN_RANGE = `e.local_date BETWEEN @from AND @to AND e.undone_at IS NULL AND (@siteIds IS NULL OR b.site_id IN (SELECT value FROM json_each(@siteIds)))`;
/** Somebody came: what they said they gave, or else the length of the shift. */
const ATTENDED = `FROM sign_up u JOIN shift h ON h.id = u.shift_id
  WHERE h.local_date BETWEEN @from AND @to AND u.attended = 1 AND u.given_back_at IS NULL AND h.cancelled_at IS NULL
    AND (@siteIds IS NULL OR h.site_id IN (SELECT value FROM json_each(@siteIds)))`;

const params = (range: SeasonRange) => ({ ...range, siteIds: range.siteIds ? JSON.stringify(range.siteIds) : null });

export function seasonRecords(store: Store, range: SeasonRange): SeasonRecord[] {
  return all<SeasonRecord>(
    store,
    `SELECT 'feeding' AS type, e.id AS entryId, b.site_id AS siteId, b.id AS binId, e.local_date AS localDate, i.grams, i.how, 0 AS minutes
       ${ENTRIES} JOIN feeding_item i ON i.entry_id = e.id WHERE e.kind = 'feeding' AND ${IN_RANGE}
     UNION ALL
     SELECT 'harvest', e.id, b.site_id, b.id, e.local_date, h.grams, h.how, 0
       ${ENTRIES} JOIN harvest h ON h.entry_id = e.id WHERE e.kind = 'harvest' AND ${IN_RANGE}
     UNION ALL
     SELECT 'check', e.id, b.site_id, b.id, e.local_date, 0, NULL, 0
       ${ENTRIES} WHERE e.kind = 'check' AND ${IN_RANGE}
     UNION ALL
     SELECT 'attendance', u.id, h.site_id, NULL, h.local_date, 0, NULL, ifnull(u.minutes, h.minutes) ${ATTENDED}`,
    params(range),
  );
}

/** Different people who came to a shift or noted something. */
export function seasonPeople(store: Store, range: SeasonRange): number {
  const row = one<{ n: number }>(
    store,
    `SELECT count(*) AS n FROM (
       SELECT e.person_id ${ENTRIES} WHERE e.person_id IS NOT NULL AND ${IN_RANGE}
       UNION
       SELECT u.person_id ${ATTENDED})`,
    params(range),
  );
  return row?.n ?? 0;
}
