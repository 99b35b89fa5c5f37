/** A stored entry as the API shows it. */
import type { Care, Check, Entry, Feeding, Harvest, HarvestExpected, Worms } from '@middenry/contract';
import { kgFromGrams } from '@middenry/domain';
import type * as z from 'zod';
import type { Who } from '../context.ts';
import type {
  CareDetail,
  CheckDetail,
  EntryRead,
  EntryRow,
  FeedingDetail,
  HarvestDetail,
  TypedUnit,
  WormsDetail,
} from '../db/repositories/entry-types.ts';
import { harvestMoreShape } from './harvest.ts';

/** A phone's clock further off than this is said on the entry (criteria B24). */
export const SKEW_TOLD_S = 300;

export interface Reader {
  readonly who: Who | null;
  materialName(id: string): string;
  binCode(binId: string): string | null;
  /** What was expected before a harvest. */
  expected(entryId: string): HarvestExpected | null;
  /** A name as this reader may see it. */
  name(person: { readonly id: string; readonly name: string }): string;
}

export function entryShape(row: EntryRow, reader: Reader): Entry {
  switch (row.kind) {
    case 'feeding':
      return feedingShape(row, reader);
    case 'check':
      return checkShape(row, reader);
    case 'harvest':
      return harvestShape(row, reader);
    case 'care':
      return careShape(row, reader);
    case 'worms':
      return wormsShape(row, reader);
    case 'note':
      return { ...tail(row, reader), kind: 'note' };
    default:
      return row satisfies never;
  }
}

function feedingShape(row: EntryRead & FeedingDetail, reader: Reader): z.output<typeof Feeding> {
  return {
    ...tail(row, reader),
    kind: 'feeding',
    zone: row.zone,
    items: row.items.map((item) => ({
      materialId: item.materialId,
      materialName: reader.materialName(item.materialId),
      massKg: kgFromGrams(item.grams),
      how: item.how,
      preparation: item.preparation,
      containerId: item.containerId,
      containerCount: item.containerCount,
      typed: typedOf(item),
      // Kept from before it was asked, an entry's old words lack it.
      tareKg: kgFromGrams(item.tareG ?? 0),
    })),
    massKg: kgFromGrams(row.items.reduce((sum, item) => sum + item.grams, 0)),
    beddingKg: kgFromGrams(row.beddingG),
    beddingMaterialId: row.beddingMaterialId,
    waterKg: kgFromGrams(row.waterG),
  };
}

function checkShape(row: EntryRead & CheckDetail, reader: Reader): z.output<typeof Check> {
  const { leftover, squeeze, smell, bedTempC, worms, ph, visitors } = row;
  return { ...tail(row, reader), kind: 'check', leftover: [...leftover], squeeze, smell, bedTempC, worms, ph, visitors: [...visitors] };
}

function harvestShape(row: EntryRead & HarvestDetail, reader: Reader): z.output<typeof Harvest> {
  const { how, destination, destinationNote } = row;
  const core = { kind: 'harvest', massKg: kgFromGrams(row.grams), how, typed: typedOf(row), destination, destinationNote } as const;
  return { ...tail(row, reader), ...core, ...harvestMoreShape(row), expected: reader.expected(row.id) };
}

function careShape(row: EntryRead & CareDetail, reader: Reader): z.output<typeof Care> {
  const { action, zone, grams, materialId, exposure, share } = row;
  const massKg = grams === null ? null : kgFromGrams(grams);
  const name = materialId === null ? null : reader.materialName(materialId);
  return { ...tail(row, reader), kind: 'care', action, zone, massKg, materialId, materialName: name, exposure, share };
}

function wormsShape(row: EntryRead & WormsDetail, reader: Reader): z.output<typeof Worms> {
  const { direction, grams, how, share, otherBinId } = row;
  const massKg = grams === null ? null : kgFromGrams(grams);
  const otherBinCode = otherBinId === null ? null : reader.binCode(otherBinId);
  return { ...tail(row, reader), kind: 'worms', direction, massKg, how, share, otherBinId, otherBinCode };
}

function tail(row: EntryRead, { who, name }: Reader) {
  const { personId, personName } = row;
  return {
    id: row.id,
    binId: row.binId,
    binCode: row.binCode,
    happenedAt: row.happenedAt,
    localDate: row.localDate,
    receivedAt: row.receivedAt,
    by: personId === null || personName === null ? null : { id: personId, name: name({ id: personId, name: personName }) },
    mine: who !== null && personId === who.personId,
    shiftId: row.shiftId,
    note: row.note,
    revision: row.revision,
    undoneAt: row.undoneAt,
    clockSkewed: Math.abs(row.skewS ?? 0) > SKEW_TOLD_S,
  };
}

const typedOf = (typed: { readonly typedValue: number | null; readonly typedUnit: TypedUnit | null }) =>
  typed.typedValue === null || typed.typedUnit === null ? null : { value: typed.typedValue, unit: typed.typedUnit };
