/** What was sent of an entry, as it is stored: kilograms become whole grams. */
import type { CareNew, CheckNew, FeedingNew, HarvestNew, NoteNew, WormsNew } from '@middenry/contract';
import { gramsFromKg } from '@middenry/domain';
import type * as z from 'zod';
import type { EntryDetail, TypedUnit } from '../db/repositories/entry-types.ts';

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
  items: items.map(({ massKg, typed, ...item }) => ({ ...item, grams: gramsFromKg(massKg), ...typedColumns(typed) })),
});

const checkDetail = ({ kind, leftover, squeeze, smell, bedTempC, worms, ph, visitors }: Of<'check'>): EntryDetail => ({
  ...{ kind, leftover, squeeze, smell, bedTempC, worms, ph },
  visitors: [...new Set(visitors)],
});

const harvestDetail = ({ kind, massKg, how, typed, destination, destinationNote }: Of<'harvest'>): EntryDetail => ({
  ...{ kind, how, destination, destinationNote },
  grams: gramsFromKg(massKg),
  ...typedColumns(typed),
});

const gramsOrNull = (massKg: number | null): number | null => (massKg === null ? null : gramsFromKg(massKg));

const typedColumns = (typed: { readonly value: number; readonly unit: TypedUnit } | null) => ({
  typedValue: typed?.value ?? null,
  typedUnit: typed?.unit ?? null,
});
