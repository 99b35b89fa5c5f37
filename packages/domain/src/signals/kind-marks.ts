import { type Parameter, parameter } from '../bin/parameter.ts';
import type { BinKind } from '../bin/scenario.ts';

/** What counts as normal differs by the kind of bin. */
export interface KindMarks {
  /** Least share of the bed's solids that should still be bedding. */
  readonly beddingMinFrac: Parameter;
  /** Depth of castings over the bin's depth at which it is time whatever the age. */
  readonly castingsDeepFrac: Parameter;
  /** Days since the start or the last harvest after which it is time, if there is enough to take. */
  readonly harvestAgeDays: Parameter;
  /** Depth of castings over the bin's depth that is worth a harvest. */
  readonly castingsWorthFrac: Parameter;
}

const bedding = (value: number) => parameter(value, 'share of solids', 'estimate', 'science-table-10');
const deep = (value: number) => parameter(value, 'share of depth', 'estimate', 'science-table-10');
const worth = (value: number) => parameter(value, 'share of depth', 'estimate', 'science-table-10');
const fourMonths = parameter(120, 'd', 'published', 'nosb-2002');
const halfYear = parameter(180, 'd', 'estimate', 'science-table-10');
const never = parameter(Number.POSITIVE_INFINITY, 'd', 'estimate', 'science-table-10');

const closed: KindMarks = {
  beddingMinFrac: bedding(0.1),
  castingsDeepFrac: deep(0.6),
  harvestAgeDays: fourMonths,
  castingsWorthFrac: worth(0.15),
};
const ground: KindMarks = {
  beddingMinFrac: bedding(0.05),
  castingsDeepFrac: deep(0.6),
  harvestAgeDays: halfYear,
  castingsWorthFrac: worth(0.15),
};

export const KIND_MARKS: Readonly<Record<BinKind, KindMarks>> = {
  tote: closed,
  'tray-stack': closed,
  fabric: closed,
  // A mature, well-stocked one has castings every week or two, and three weeks is late (common practice, no published source).
  'flow-through': {
    beddingMinFrac: bedding(0.05),
    castingsDeepFrac: deep(0.85),
    harvestAgeDays: parameter(14, 'd', 'common practice', 'common-practice'),
    castingsWorthFrac: parameter(0.5, 'share of depth', 'common practice', 'common-practice'),
  },
  bed: ground,
  pit: ground,
  vessel: { beddingMinFrac: bedding(0), castingsDeepFrac: never, harvestAgeDays: never, castingsWorthFrac: never },
};

/** Wet density of castings in the bin. */
export const CASTINGS_KG_M3 = parameter(650, 'kg/m3', 'estimate', 'science-table-8');

export const castingsDepthM = (castingsKgWb: number, areaM2: number): number => castingsKgWb / CASTINGS_KG_M3.value / areaM2;
