/** What a season adds up from: feedings, bedding and checks added up by bin and month (or week), harvests, shifts and attendances one by one. */
import type { SeasonRow as SeasonRecord } from '@middenry/domain';
import { all } from '../rows.ts';
import type { Store } from '../store.ts';
import type { HarvestDetail } from './entry-types.ts';

export interface SeasonRange {
  readonly from: string;
  readonly to: string;
  /** Only these sites; null = all. */
  readonly siteIds: readonly string[] | null;
}

export interface SeasonAdding {
  /** Bedding that nobody gave a name. */
  readonly usualBedding: string;
  /** The first day of a week no later than the season, to add up by weeks; null = by months. */
  readonly weeksFrom: string | null;
}

/** Reads all entries in the order they lie in: by the index of dates each would be looked up alone, which costs more than twice as much. */
const ENTRIES = `FROM entry e NOT INDEXED JOIN bin b ON b.id = e.bin_id`;
/** Which seven days after @weeksFrom an entry is of. */
const WEEK = `CAST((julianday(e.local_date) - julianday(@weeksFrom)) / 7 AS INTEGER)`;
const SPAN = `CASE WHEN @weeksFrom IS NULL THEN substr(e.local_date, 1, 7) ELSE ${WEEK} END`;
const IN_RANGE = `e.local_date BETWEEN @from AND @to AND e.undone_at IS NULL AND (@siteIds IS NULL OR b.site_id IN (SELECT value FROM json_each(@siteIds)))`;
const SHIFTS = `h.local_date BETWEEN @from AND @to AND h.cancelled_at IS NULL
    AND (@siteIds IS NULL OR h.site_id IN (SELECT value FROM json_each(@siteIds)))`;

export const seasonParams = <R extends SeasonRange>(range: R) => ({
  ...range,
  siteIds: range.siteIds ? JSON.stringify(range.siteIds) : null,
});

/** A record with how wet castings were as it was noted, to be read as a share of water by whoever adds up. */
export type SeasonNoted = Omit<SeasonRecord, 'moistureFracWb'> & Partial<Pick<HarvestDetail, 'squeeze' | 'dishMg' | 'wetMg' | 'dryMg'>>;

export function seasonRecords(store: Store, range: SeasonRange & SeasonAdding): SeasonNoted[] {
  return [...noted(store, range), ...harvested(store, range), ...worked(store, range)];
}

const harvested = (store: Store, range: SeasonRange): SeasonNoted[] =>
  all<SeasonNoted>(
    store,
    `SELECT 'harvest' AS type, 1 AS entries, b.site_id AS siteId, b.id AS binId, e.local_date AS localDate, h.grams, h.how,
        0 AS minutes, h.volume_ml AS volumeMl, h.squeeze, h.dish_mg AS dishMg, h.wet_mg AS wetMg, h.dry_mg AS dryMg
       ${ENTRIES} JOIN harvest h ON h.entry_id = e.id WHERE e.kind = 'harvest' AND ${IN_RANGE}`,
    seasonParams(range),
  );

/** Every item adds its grams to its own material; a feeding is counted once, with its first item. */
const noted = (store: Store, range: SeasonRange & SeasonAdding): SeasonRecord[] =>
  all<SeasonRecord>(
    store,
    `SELECT 'feeding' AS type, sum(i.seq = 0) AS entries, b.site_id AS siteId, b.id AS binId, min(e.local_date) AS localDate,
        sum(i.grams) AS grams, i.how, 0 AS minutes, i.material_id AS materialId
       ${ENTRIES} JOIN feeding_item i ON i.entry_id = e.id WHERE e.kind = 'feeding' AND ${IN_RANGE}
       GROUP BY b.id, ${SPAN}, i.how, i.material_id
     UNION ALL
     SELECT 'bedding', 0, b.site_id, b.id, min(e.local_date), sum(f.bedding_g), NULL, 0, ifnull(f.bedding_material_id, @usualBedding)
       ${ENTRIES} JOIN feeding f ON f.entry_id = e.id WHERE e.kind = 'feeding' AND f.bedding_g > 0 AND ${IN_RANGE}
       GROUP BY b.id, ${SPAN}, f.bedding_material_id
     UNION ALL
     SELECT 'bedding', 0, b.site_id, b.id, min(e.local_date), sum(c.grams), NULL, 0, ifnull(c.material_id, @usualBedding)
       ${ENTRIES} JOIN care c ON c.entry_id = e.id WHERE e.kind = 'care' AND c.action = 'bedding' AND c.grams > 0 AND ${IN_RANGE}
       GROUP BY b.id, ${SPAN}, c.material_id
     UNION ALL
     SELECT 'check', count(*), b.site_id, b.id, min(e.local_date), 0, NULL, 0, NULL
       ${ENTRIES} WHERE e.kind = 'check' AND ${IN_RANGE}
       GROUP BY b.id, ${SPAN}`,
    seasonParams(range),
  );

/** A shift that was not called off; and whoever came: what they said they gave, or else the length of the shift. */
const worked = (store: Store, range: SeasonRange): SeasonRecord[] =>
  all<SeasonRecord>(
    store,
    `SELECT 'shift' AS type, 1 AS entries, h.site_id AS siteId, NULL AS binId, h.local_date AS localDate, 0 AS grams, NULL AS how, h.minutes,
        h.places, (SELECT count(*) FROM sign_up u WHERE u.shift_id = h.id AND u.given_back_at IS NULL) AS placesTaken
       FROM shift h WHERE ${SHIFTS}
     UNION ALL
     SELECT 'attendance', 1, h.site_id, NULL, h.local_date, 0, NULL, ifnull(u.minutes, h.minutes), 0, 0
       FROM sign_up u JOIN shift h ON h.id = u.shift_id WHERE u.attended = 1 AND u.given_back_at IS NULL AND ${SHIFTS}`,
    seasonParams(range),
  );
