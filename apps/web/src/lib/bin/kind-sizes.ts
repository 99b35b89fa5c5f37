import type { BinKind } from '@middenry/domain';

/**
 * A usual size of each kind, to begin from; whoever has another one types it in.
 *
 * Common practice, no published source: what is sold or built for gardens and schools. Bedding,
 * water and worms go by the area: 10 kg of card, 20 kg of water and 2.5 kg of worms to a square
 * metre, as the example of docs/reference/scenario.md has it.
 */
export interface KindSize {
  readonly areaM2: number;
  readonly depthM: number;
  readonly zones: number;
  readonly openBase: boolean;
}
export const KIND_SIZES: Readonly<Record<BinKind, KindSize>> = {
  tote: { areaM2: 0.2, depthM: 0.35, zones: 4, openBase: false },
  'tray-stack': { areaM2: 0.16, depthM: 0.45, zones: 2, openBase: false },
  'flow-through': { areaM2: 1, depthM: 0.6, zones: 6, openBase: true },
  fabric: { areaM2: 0.3, depthM: 0.6, zones: 2, openBase: true },
  bed: { areaM2: 2, depthM: 0.4, zones: 8, openBase: true },
  pit: { areaM2: 1, depthM: 0.5, zones: 4, openBase: true },
  vessel: { areaM2: 0.02, depthM: 0.15, zones: 1, openBase: false },
};
const CARD_KG_PER_M2 = 10;
const WATER_KG_PER_M2 = 20;
const WORMS_KG_PER_M2 = 2.5;
const BED_MATERIAL = 'cardboard_corrugated';

const tenths = (kg: number) => Math.max(0.1, Math.round(kg * 10) / 10);

/** What a bin of an area begins with when nobody says otherwise. */
export function startFor(areaM2: number) {
  return {
    wormsKg: tenths(areaM2 * WORMS_KG_PER_M2),
    bed: [{ materialId: BED_MATERIAL, massKg: tenths(areaM2 * CARD_KG_PER_M2) }],
    bedWaterKg: tenths(areaM2 * WATER_KG_PER_M2),
  };
}

/** Line pictures of the kinds in a 64 x 48 box. */
export const KIND_PICTURES: Readonly<Record<BinKind, string>> = {
  tote: 'M10 14h44l-4 28H14ZM8 8h48v6H8Z',
  'tray-stack': 'M14 6h36v8H14ZM12 14h40v9H12ZM12 23h40v9H12ZM12 32h40v9H12ZM16 41v4M48 41v4',
  'flow-through': 'M12 8h40v26H12ZM12 34v10M52 34v10M16 34h32M20 34v5M28 34v5M36 34v5M44 34v5M12 16h40',
  fabric: 'M8 6h48M12 6l8 34h24l8-34M20 40c4 5 20 5 24 0M14 14c10 5 26 5 36 0',
  bed: 'M4 42h56M8 42c2-16 12-22 24-22s22 6 24 22M16 34h8M28 28h8M40 34h8',
  pit: 'M2 16h14v24h32V16h14M20 28h6M30 32h6M40 28h4',
  vessel: 'M18 12h28v26a6 4 0 0 1-6 4H24a6 4 0 0 1-6-4ZM16 8h32v4H16Z',
};
