/** Castings of a season: who got them, and what went in and out of the stores until its last day. */
import type { CastingsGift, StoreFlow } from '@middenry/domain';
import { all } from '../rows.ts';
import type { Store } from '../store.ts';
import type { Destination } from './entry-types.ts';
import { type SeasonRange, seasonParams } from './season.ts';

/** By the harvest's bin as every total of a season is; out of a store by whose store it was. */
export const seasonGifts = (store: Store, range: SeasonRange): (CastingsGift & { readonly destination: Destination })[] =>
  all(
    store,
    `SELECT h.destination, h.grams, h.volume_ml AS volumeMl, 'bin' AS "from"
       FROM harvest h JOIN entry e ON e.id = h.entry_id JOIN bin b ON b.id = e.bin_id
       WHERE h.destination NOT IN ('stock', 'curing') AND e.local_date BETWEEN @from AND @to AND e.undone_at IS NULL
         AND (@siteIds IS NULL OR b.site_id IN (SELECT value FROM json_each(@siteIds)))
     UNION ALL
     SELECT m.destination, m.grams, NULL, 'store'
       FROM castings_move m WHERE m.kind = 'given-out' AND m.undone_at IS NULL AND m.local_date BETWEEN @from AND @to
         AND (@siteIds IS NULL OR m.site_id IN (SELECT value FROM json_each(@siteIds)))`,
    seasonParams(range),
  );

export const seasonStoreFlows = (store: Store, range: SeasonRange): (StoreFlow & { readonly readyOn: string | null })[] =>
  all(
    store,
    `SELECT e.local_date AS "on", 'harvested' AS kind, h.grams, h.ready_on AS readyOn
       FROM harvest h JOIN entry e ON e.id = h.entry_id
       WHERE h.destination IN ('stock', 'curing') AND e.local_date <= @to AND e.undone_at IS NULL
         AND (@siteIds IS NULL OR h.site_id IN (SELECT value FROM json_each(@siteIds)))
     UNION ALL
     SELECT m.local_date, m.kind, m.grams, NULL
       FROM castings_move m WHERE m.undone_at IS NULL AND m.local_date <= @to
         AND (@siteIds IS NULL OR m.site_id IN (SELECT value FROM json_each(@siteIds)))`,
    seasonParams(range),
  );
