import type { Bin, BinChange, BinNew } from '@middenry/contract';
import { gramsFromKg, isMaterialId, kgFromGrams } from '@middenry/domain';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { type BinRow, findBin, findBinByCode, insertBin, listBins as listRows, updateBin } from '../db/repositories/bin.ts';
import { ownMaterialById } from '../db/repositories/material.ts';
import { type Store, write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { once } from './once.ts';
import { siteOf } from './sites.ts';

export function binOf(store: Store, id: string): BinRow {
  const bin = findBin(store, id);
  if (bin === undefined) throw refuse('not-found');
  return bin;
}

export function binShape(row: BinRow): Bin {
  const { startWormsG, startBedWaterG, bed, createdAt: _createdAt, timeZone: _timeZone, ...rest } = row;
  return {
    ...rest,
    wormsKg: kgFromGrams(startWormsG),
    bedWaterKg: kgFromGrams(startBedWaterG),
    bed: bed.map(({ materialId, grams }) => ({ materialId, massKg: kgFromGrams(grams) })),
  };
}

export const listBins = (context: Context, siteId: string | undefined): { items: Bin[] } => ({
  items: listRows(context.store, { siteId }).map(binShape),
});

/** All that a scan of its label shows to anybody. */
export function binCard(context: Context, code: string) {
  const bin = findBinByCode(context.store, code);
  if (bin === undefined) throw refuse('not-found');
  return { code: bin.code, name: bin.name };
}

export function addBin(context: Signed, body: z.output<typeof BinNew>): Bin {
  return once(context, 'addBin', body, {
    make: () => {
      const site = siteOf(context.store, body.siteId);
      if (body.startedOn > context.today(site.timeZone)) throw refuse('date-in-future');
      if (findBinByCode(context.store, body.code) !== undefined) throw refuse('code-taken');
      const stray = body.bed.findIndex(
        ({ materialId }) => !isMaterialId(materialId) && ownMaterialById(context.store, materialId) === null,
      );
      if (stray >= 0) throw refuse('material-unknown', { errors: [{ pointer: `/bed/${stray}/materialId`, message: 'is not known' }] });
      const { wormsKg, bedWaterKg, bed, ...rest } = body;
      insertBin(
        context.store,
        { ...rest, startWormsG: gramsFromKg(wormsKg), startBedWaterG: gramsFromKg(bedWaterKg), createdAt: context.now.toISOString() },
        bed.map(({ materialId, massKg }) => ({ materialId, grams: gramsFromKg(massKg) })),
      );
      context.audit('bin-added', body.id);
      return binShape(binOf(context.store, body.id));
    },
    find: () => binShape(binOf(context.store, body.id)),
  });
}

export function changeBin(context: Signed, id: string, body: z.output<typeof BinChange>): Bin {
  return write(context.store, () => {
    const before = binOf(context.store, id);
    if (body.siteId !== undefined) siteOf(context.store, body.siteId);
    if (body.code !== undefined && (findBinByCode(context.store, body.code)?.id ?? id) !== id) throw refuse('code-taken');
    if (body.zones !== undefined && body.zones < before.zones)
      throw refuseField('/zones', 'must not shrink: what was fed into the zones would have nowhere to be');
    updateBin(context.store, id, body);
    context.audit('bin-changed', id, { fields: Object.keys(body) });
    return binShape(binOf(context.store, id));
  });
}
