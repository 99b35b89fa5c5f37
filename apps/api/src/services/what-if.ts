/** What would happen at a bin: its members as text for a browser, and the same worked out here. */
import type { EnsembleShape, WhatIf, WhatIfQuery } from '@middenry/contract';
import type { WhatIfAnswer, WhatIfChoice } from '@middenry/domain';
import type * as z from 'zod';
import type { Context } from '../context.ts';
import { binOf } from './bins.ts';
import { checkMaterial, materialList, materialsOf, type OwnMaterials, portionOf } from './materials.ts';
import { ensembleFor, whatIfFor } from './outlook-cache.ts';

export async function readEnsemble(call: Context, binId: string): Promise<z.output<typeof EnsembleShape>> {
  const bin = binOf(call.store, binId);
  const { state, ...rest } = await ensembleFor(call, bin);
  const text = Buffer.from(state.buffer, state.byteOffset, state.byteLength).toString('base64');
  const foods = foodsOf(call);
  return { binId, today: call.today(bin.timeZone), foods, ensemble: { ...rest, state: text } };
}

function foodsOf({ store, language }: Context): z.output<typeof EnsembleShape>['foods'] {
  const own = materialsOf(store);
  const foods = materialList(own, language).filter(({ kind, hidden }) => (kind === 'food' || kind === 'amendment') && !hidden);
  return foods.map(({ id, name }) => {
    const { composition } = portionOf(own, id, { massKg: 1 });
    return { id, name, composition: composition === undefined ? null : { ...composition } };
  });
}

export async function readWhatIf(call: Context, binId: string, query: z.output<typeof WhatIfQuery>): Promise<WhatIf> {
  const bin = binOf(call.store, binId);
  const { answer, without } = await whatIfFor(call, bin, choiceOf(materialsOf(call.store), query));
  return { binId, today: call.today(bin.timeZone), answer: shape(answer), without: shape(without) };
}

const shape = ({ days, ...rest }: WhatIfAnswer): WhatIf['answer'] => ({ ...rest, days: [...days] });

function choiceOf(own: OwnMaterials, { food: id, ...choice }: z.output<typeof WhatIfQuery>): WhatIfChoice {
  checkMaterial(own, id, '/food');
  const { material, composition } = portionOf(own, id, { massKg: 1 });
  return { ...choice, food: composition === undefined ? { material } : { composition } };
}
