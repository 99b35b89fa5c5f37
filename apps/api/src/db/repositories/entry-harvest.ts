/** The detail tables of harvests. */
import { all, run } from '../rows.ts';
import type { Store } from '../store.ts';
import type { BucketRow, EntryDetail, HarvestDetail } from './entry-types.ts';

type WithId<T> = T & { readonly entryId: string };

/** In the store of the site at which the bin stands; a bin that moves on leaves its castings there. */
export function insertHarvest(store: Store, entryId: string, detail: HarvestDetail): void {
  const { kind: _kind, buckets, screened, ...row } = detail;
  run(
    store,
    `INSERT INTO harvest (entry_id, grams, how, typed_value, typed_unit, destination, destination_note, site_id, ready_on, screened,
        volume_ml, squeeze, dish_mg, wet_mg, dry_mg)
     VALUES (@entryId, @grams, @how, @typedValue, @typedUnit, @destination, @destinationNote,
        (SELECT b.site_id FROM entry e JOIN bin b ON b.id = e.bin_id WHERE e.id = @entryId), @readyOn, @screened,
        @volumeMl, @squeeze, @dishMg, @wetMg, @dryMg)`,
    { ...row, entryId, screened: screened === null ? null : Number(screened) },
  );
  buckets.forEach((bucket, seq) => {
    run(
      store,
      `INSERT INTO harvest_bucket (entry_id, seq, gross_g, tare_g, container_id, typed_value, typed_unit)
       VALUES (@entryId, @seq, @grossG, @tareG, @containerId, @typedValue, @typedUnit)`,
      { ...bucket, entryId, seq },
    );
  });
}

export function readHarvests(store: Store, ids: string, found: Map<string, EntryDetail>): void {
  const buckets = new Map<string, BucketRow[]>();
  for (const { entryId, ...bucket } of all<WithId<BucketRow>>(
    store,
    `SELECT entry_id AS entryId, gross_g AS grossG, tare_g AS tareG, container_id AS containerId, typed_value AS typedValue,
            typed_unit AS typedUnit
     FROM harvest_bucket WHERE entry_id IN (SELECT value FROM json_each(?)) ORDER BY entry_id, seq`,
    ids,
  ))
    buckets.set(entryId, [...(buckets.get(entryId) ?? []), bucket]);
  for (const { entryId, screened, ...harvest } of all<
    WithId<Omit<HarvestDetail, 'kind' | 'buckets' | 'screened'> & { screened: number | null }>
  >(
    store,
    `SELECT entry_id AS entryId, grams, how, typed_value AS typedValue, typed_unit AS typedUnit, destination,
            destination_note AS destinationNote, ready_on AS readyOn, screened, volume_ml AS volumeMl, squeeze, dish_mg AS dishMg,
            wet_mg AS wetMg, dry_mg AS dryMg
     FROM harvest WHERE entry_id IN (SELECT value FROM json_each(?))`,
    ids,
  )) {
    const isScreened = screened === null ? null : screened === 1;
    found.set(entryId, { kind: 'harvest', ...harvest, screened: isScreened, buckets: buckets.get(entryId) ?? [] });
  }
}
