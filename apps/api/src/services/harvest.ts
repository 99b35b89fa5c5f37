/** What a harvest must keep to beside what every entry does, and how it reads back. */
import type { Harvest, Moisture } from '@middenry/contract';
import {
  castingsReadyOn,
  correctedCastingsG,
  kgFromGrams,
  MILLIGRAMS_PER_GRAM,
  MILLILITRES_PER_LITRE,
  moistureFromOven,
  squeezeMoisture,
} from '@middenry/domain';
import type * as z from 'zod';
import { containersAtSite, type EntryBinRow } from '../db/repositories/entry-place.ts';
import type { EntryDetail, HarvestDetail } from '../db/repositories/entry-types.ts';
import type { Store } from '../db/store.ts';
import { refuseField } from '../refusal.ts';
import { addDays } from './local-time.ts';

/** Nobody cures castings for longer; a year typed wrong would hide them. */
const MOST_CURING_DAYS = 730;

/** @throws {Refusal} invalid, naming the field */
export function checkHarvest(store: Store, bin: EntryBinRow, harvest: HarvestDetail): void {
  checkBuckets(store, bin, harvest);
  const { dishMg, wetMg, dryMg, destination, readyOn } = harvest;
  if (dishMg !== null && wetMg !== null && dryMg !== null) {
    if (dryMg <= dishMg) throw refuseField('/moisture/dryG', 'must be more than the empty dish');
    if (dryMg > wetMg) throw refuseField('/moisture/dryG', 'must be no more than when it was wet');
  }
  if (readyOn !== null && destination !== 'curing') throw refuseField('/readyOn', 'belongs to castings that cure');
}

function checkBuckets(store: Store, bin: EntryBinRow, { buckets, grams }: HarvestDetail): void {
  if (buckets.length === 0) return;
  const tooLight = buckets.findIndex(({ grossG, tareG }) => grossG <= tareG);
  if (tooLight >= 0) throw refuseField(`/buckets/${tooLight}/grossKg`, 'must be more than the empty container');
  const heldG = buckets.reduce((sum, { grossG, tareG }) => sum + grossG - tareG, 0);
  if (heldG !== grams) throw refuseField('/massKg', 'must be what the buckets hold together');
  const named = buckets.flatMap(({ containerId }) => (containerId === null ? [] : [containerId]));
  if (named.length === 0) return;
  const here = containersAtSite(store, bin.siteId, named);
  const strange = buckets.findIndex(({ containerId }) => containerId !== null && !here.has(containerId));
  if (strange >= 0) throw refuseField(`/buckets/${strange}/containerId`, "is not a container of this bin's site");
}

/**
 * Castings that cure are ready on the day that was said, or after the usual time.
 *
 * @throws {Refusal} invalid when that is before they were harvested, or years later
 */
export function dated(detail: EntryDetail, localDate: string): EntryDetail {
  if (detail.kind !== 'harvest' || detail.destination !== 'curing') return detail;
  const readyOn = detail.readyOn ?? castingsReadyOn(localDate);
  if (readyOn < localDate) throw refuseField('/readyOn', 'must not be before the harvest');
  if (readyOn > addDays(localDate, MOST_CURING_DAYS)) throw refuseField('/readyOn', 'must be within two years of the harvest');
  return { ...detail, readyOn };
}

type More = Pick<z.output<typeof Harvest>, 'buckets' | 'moisture' | 'screened' | 'volumeL' | 'readyOn' | 'correctedKg'>;

/** What an entry was before it was corrected may be from a time when none of this was asked. */
export function harvestMoreShape(row: Partial<HarvestDetail> & Pick<HarvestDetail, 'grams'>): More {
  const moisture = moistureOf(row);
  return {
    buckets: (row.buckets ?? []).map(({ grossG, tareG, containerId, typedValue, typedUnit }) => ({
      grossKg: kgFromGrams(grossG),
      tareKg: kgFromGrams(tareG),
      massKg: kgFromGrams(grossG - tareG),
      containerId,
      typed: typedValue === null || typedUnit === null ? null : { value: typedValue, unit: typedUnit },
    })),
    moisture,
    screened: row.screened ?? null,
    volumeL: row.volumeMl === null || row.volumeMl === undefined ? null : row.volumeMl / MILLILITRES_PER_LITRE,
    readyOn: row.readyOn ?? null,
    correctedKg: moisture === null ? null : kgFromGrams(correctedCastingsG(row.grams, moisture.moistureFracWb)),
  };
}

type MoistureRow = Partial<Pick<HarvestDetail, 'squeeze' | 'dishMg' | 'wetMg' | 'dryMg'>>;

/** How wet castings were; null where nobody said. */
export function moistureOf({ squeeze = null, dishMg = null, wetMg = null, dryMg = null }: MoistureRow): Moisture | null {
  if (squeeze !== null) return { how: 'squeeze', squeeze, dishG: null, wetG: null, dryG: null, ...squeezeMoisture(squeeze) };
  if (dishMg === null || wetMg === null || dryMg === null) return null;
  const moistureFracWb = moistureFromOven({ wetG: wetMg - dishMg, dishG: dishMg, dishAndDryG: dryMg });
  const g = (mg: number): number => mg / MILLIGRAMS_PER_GRAM;
  return {
    ...{ how: 'oven', squeeze: null, dishG: g(dishMg), wetG: g(wetMg), dryG: g(dryMg) },
    ...{ moistureFracWb, lowFracWb: moistureFracWb, highFracWb: moistureFracWb },
  };
}
