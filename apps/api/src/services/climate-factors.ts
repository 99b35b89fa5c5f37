/** The climate figure: left out until a coordinator looked up factors and their source, and printed with both (criteria D5). */
import { ClimateFactors, type ClimateFactorsNew, type Season } from '@middenry/contract';
import { CATALOGUE, CLIMATE_FACTOR_SETS, climateFigure, climateScraps, isMaterialId, type SeasonRow } from '@middenry/domain';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { deleteClimateFactors, findClimateFactors, putClimateFactors } from '../db/repositories/climate-factors.ts';
import { write } from '../db/store.ts';
import { materialsOf } from './materials.ts';

export const readClimateFactors = (call: Context) => ({ factors: factorsNow(call), sets: [...CLIMATE_FACTOR_SETS] });

export const confirmClimateFactors = (call: Signed, { confirmed: _, ...factors }: z.output<typeof ClimateFactorsNew>): ClimateFactors =>
  write(call.store, () => {
    const confirmedAt = call.now.toISOString();
    putClimateFactors(call.store, { factors: JSON.stringify(factors), confirmedAt });
    call.audit('climate-factors.confirmed', factors.name, { edition: factors.edition, region: factors.region });
    return { ...factors, confirmedAt };
  });

export const removeClimateFactors = (call: Signed): void =>
  write(call.store, () => {
    if (deleteClimateFactors(call.store) > 0) call.audit('climate-factors.removed');
  });

/** Of the scraps among these rows; null while nobody confirmed factors. */
export function climateOfScraps(call: Context, rows: readonly SeasonRow[]): Season['climate'] {
  const factors = factorsNow(call);
  if (factors === null) return null;
  const own = materialsOf(call.store);
  const isFood = (id: string) => (own.get(id)?.kind ?? (isMaterialId(id) ? CATALOGUE[id].kind : null)) === 'food';
  const scraps = climateScraps(rows, isFood);
  return { factors, ...scraps, ...climateFigure(scraps.scrapsG, factors, factors.landfillPercent) };
}

function factorsNow(call: Context): ClimateFactors | null {
  const row = findClimateFactors(call.store);
  return row === null ? null : ClimateFactors.parse({ ...(JSON.parse(row.factors) as object), confirmedAt: row.confirmedAt });
}
