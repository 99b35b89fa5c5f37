/** What is stored of an entry, in the words of the tables; masses are whole grams. */
import type { Exposure, HowMeasured, Leftover, Preparation, Smell, Squeeze, Visitor, WormSighting } from '@middenry/domain';

export type TypedUnit = 'kg' | 'g' | 'lb' | 'oz' | 'container';
export type Destination = 'plots' | 'beds' | 'class' | 'sale' | 'given-away' | 'stock' | 'curing' | 'other';

export interface EntryCore {
  readonly id: string;
  readonly binId: string;
  readonly personId: string | null;
  readonly shiftId: string | null;
  readonly happenedAt: string;
  readonly localDate: string;
  readonly deviceAt: string | null;
  readonly receivedAt: string;
  readonly skewS: number | null;
  readonly note: string;
}

/** What reading adds to what was written. */
export interface EntryRead extends EntryCore {
  readonly binCode: string;
  readonly siteId: string;
  readonly personName: string | null;
  readonly revision: number;
  readonly undoneAt: string | null;
}

export interface FeedingItemRow {
  readonly materialId: string;
  readonly grams: number;
  readonly how: HowMeasured;
  readonly preparation: Preparation;
  readonly containerId: string | null;
  readonly containerCount: number | null;
  readonly typedValue: number | null;
  readonly typedUnit: TypedUnit | null;
  /** What it was weighed in; `grams` are without. */
  readonly tareG: number;
}

export interface FeedingDetail {
  readonly kind: 'feeding';
  readonly zone: number;
  readonly beddingG: number;
  readonly beddingMaterialId: string | null;
  readonly waterG: number;
  readonly items: readonly FeedingItemRow[];
}

export interface CheckDetail {
  readonly kind: 'check';
  readonly squeeze: Squeeze | null;
  readonly smell: Smell | null;
  readonly bedTempC: number | null;
  readonly worms: WormSighting | null;
  readonly ph: number | null;
  readonly leftover: readonly { readonly zone: number; readonly left: Leftover }[];
  readonly visitors: readonly Visitor[];
}

export interface BucketRow {
  readonly grossG: number;
  readonly tareG: number;
  readonly containerId: string | null;
  readonly typedValue: number | null;
  readonly typedUnit: TypedUnit | null;
}

export interface HarvestDetail {
  readonly kind: 'harvest';
  readonly grams: number;
  readonly how: HowMeasured;
  readonly typedValue: number | null;
  readonly typedUnit: TypedUnit | null;
  readonly destination: Destination;
  readonly destinationNote: string;
  readonly buckets: readonly BucketRow[];
  readonly screened: boolean | null;
  readonly volumeMl: number | null;
  readonly squeeze: Squeeze | null;
  /** A sample dried in a dish, as the scale showed it. */
  readonly dishMg: number | null;
  readonly wetMg: number | null;
  readonly dryMg: number | null;
  /** Of castings that cure; null until it is known on which day they were harvested. */
  readonly readyOn: string | null;
}

export type CareAction =
  | 'loosened'
  | 'watered'
  | 'bedding'
  | 'inoculated'
  | 'drained'
  | 'moved'
  | 'covered'
  | 'taken-out'
  | 'rested'
  | 'woken'
  | 'retired';

export interface CareDetail {
  readonly kind: 'care';
  readonly action: CareAction;
  /** null: the whole bin. */
  readonly zone: number | null;
  readonly grams: number | null;
  readonly materialId: string | null;
  readonly exposure: Exposure | null;
  /** Of the uneaten food. */
  readonly share: number | null;
}

export interface NoteDetail {
  readonly kind: 'note';
}

export interface WormsDetail {
  readonly kind: 'worms';
  readonly direction: 'added' | 'given-away' | 'split-off';
  readonly grams: number | null;
  readonly how: HowMeasured;
  /** Of the bin's worms. */
  readonly share: number | null;
  readonly otherBinId: string | null;
}

export type EntryDetail = FeedingDetail | CheckDetail | HarvestDetail | CareDetail | NoteDetail | WormsDetail;
export type EntryKind = EntryDetail['kind'];
export type EntryRow = EntryRead & EntryDetail;
