/** What was sent of an entry, as it is stored: kilograms become whole grams. */
import type { CareNew, CheckNew, FeedingNew, HarvestNew, NoteNew, WormsNew } from '@middenry/contract';
import { gramsFromKg, MILLIGRAMS_PER_GRAM, MILLILITRES_PER_LITRE } from '@middenry/domain';
import type * as z from 'zod';
import type { EntryDetail, HarvestDetail, TypedUnit } from '../db/repositories/entry-types.ts';

type Sent<Kind extends string, Schema extends z.ZodType> = Omit<z.output<Schema>, 'id' | 'deviceAt'> & { readonly kind: Kind };

/** One entry's content whatever its kind, as logging and correcting send it. */
export type EntryContent =
  | Sent<'feeding', typeof FeedingNew>
  | Sent<'check', typeof CheckNew>
  | Sent<'harvest', typeof HarvestNew>
  | Sent<'care', typeof CareNew>
  | Sent<'note', typeof NoteNew>
  | Sent<'worms', typeof WormsNew>;

export function detailOf(content: EntryContent): EntryDetail {
  switch (content.kind) {
    case 'feeding':
      return feedingDetail(content);
    case 'check':
      return checkDetail(content);
    case 'harvest':
      return harvestDetail(content);
    case 'care': {
      const { kind, action, zone, massKg, materialId, exposure, share } = content;
      return { kind, action, zone, grams: gramsOrNull(massKg), materialId, exposure, share };
    }
    case 'worms': {
      const { kind, direction, massKg, how, share, otherBinId } = content;
      return { kind, direction, grams: gramsOrNull(massKg), how, share, otherBinId };
    }
    case 'note':
      return { kind: 'note' };
    default:
      return content satisfies never;
  }
}

type Of<Kind extends EntryContent['kind']> = Extract<EntryContent, { kind: Kind }>;

const feedingDetail = ({ kind, zone, beddingKg, beddingMaterialId, waterKg, items }: Of<'feeding'>): EntryDetail => ({
  kind,
  zone,
  beddingG: gramsFromKg(beddingKg),
  beddingMaterialId,
  waterG: gramsFromKg(waterKg),
  items: items.map(({ massKg, typed, tareKg = 0, ...item }) => ({
    ...item,
    grams: gramsFromKg(massKg),
    tareG: gramsFromKg(tareKg),
    ...typedColumns(typed),
  })),
});

const checkDetail = ({ kind, leftover, squeeze, smell, bedTempC, worms, ph, visitors }: Of<'check'>): EntryDetail => ({
  ...{ kind, leftover, squeeze, smell, bedTempC, worms, ph },
  visitors: [...new Set(visitors)],
});

/** What its buckets held together is the harvest, to the gram; `checkHarvest` sees that what was sent says so too. */
function harvestDetail(sent: Of<'harvest'>): EntryDetail {
  const { kind, massKg, how, typed, destination, destinationNote, screened = null, volumeL = null, readyOn = null } = sent;
  const buckets = (sent.buckets ?? []).map((bucket) => ({
    grossG: gramsFromKg(bucket.grossKg),
    tareG: gramsFromKg(bucket.tareKg ?? 0),
    containerId: bucket.containerId ?? null,
    ...typedColumns(bucket.typed ?? null),
  }));
  const sentG = gramsFromKg(massKg);
  const heldG = buckets.reduce((sum, { grossG, tareG }) => sum + grossG - tareG, 0);
  // Kilograms that a phone added up may be off by the rounding of each bucket, and by no more.
  const grams = Math.abs(heldG - sentG) <= buckets.length ? heldG || sentG : sentG;
  return {
    ...{ kind, how, destination, destinationNote, grams, buckets, screened, readyOn },
    ...typedColumns(typed),
    volumeMl: volumeL === null ? null : Math.round(volumeL * MILLILITRES_PER_LITRE),
    ...moistureColumns(sent.moisture ?? null),
  };
}

type SentMoisture = NonNullable<Of<'harvest'>['moisture']>;
type MoistureColumns = Pick<HarvestDetail, 'squeeze' | 'dishMg' | 'wetMg' | 'dryMg'>;

function moistureColumns(moisture: SentMoisture | null): MoistureColumns {
  if (moisture?.how !== 'oven') return { squeeze: moisture?.squeeze ?? null, dishMg: null, wetMg: null, dryMg: null };
  const mg = (grams: number): number => Math.round(grams * MILLIGRAMS_PER_GRAM);
  return { squeeze: null, dishMg: mg(moisture.dishG), wetMg: mg(moisture.wetG), dryMg: mg(moisture.dryG) };
}

const gramsOrNull = (massKg: number | null): number | null => (massKg === null ? null : gramsFromKg(massKg));

const typedColumns = (typed: { readonly value: number; readonly unit: TypedUnit } | null) => ({
  typedValue: typed?.value ?? null,
  typedUnit: typed?.unit ?? null,
});
