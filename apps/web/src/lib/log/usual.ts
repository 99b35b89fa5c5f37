import type { Entry } from '../bin/types.ts';

const SHOWN = 3;
const FALLBACK = ['food_scraps_veg', 'coffee_grounds', 'lettuce'];

/** The three foods this bin gets most, filled up with what any kitchen has. */
export function usualFoodsOf<F extends { readonly id: string }>(foods: readonly F[], entries: readonly Entry[]): F[] {
  const times = new Map<string, number>();
  for (const entry of entries)
    if (entry.kind === 'feeding') for (const item of entry.items) times.set(item.materialId, (times.get(item.materialId) ?? 0) + 1);
  const wanted = [...[...times].sort((a, b) => b[1] - a[1]).map(([id]) => id), ...FALLBACK];
  const found = [...new Set(wanted)].flatMap((id) => foods.filter((x) => x.id === id));
  return (found.length > 0 ? found : foods.slice(0, SHOWN)).slice(0, SHOWN);
}

const CARD = 'cardboard_corrugated';

/** The bedding that went in last, or torn card. */
export function usualBeddingOf(entries: readonly Entry[]): string {
  const last = entries.find((e) => e.kind === 'feeding' && !e.undoneAt && e.beddingKg > 0 && e.beddingMaterialId !== null);
  return (last?.kind === 'feeding' ? last.beddingMaterialId : null) ?? CARD;
}
