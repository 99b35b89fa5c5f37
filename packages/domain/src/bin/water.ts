import { parameter } from './parameter.ts';
import type { BinKind, Exposure } from './scenario.ts';

/** Model.md 1.5; EQ9. */
export const WATER_PARAMETERS = {
  metabolicKgPerKg: parameter(0.55, 'kg/kg', 'from memory', 'haug-1993'),
  evaporationPerC: parameter(0.06, '1/C', 'derived', 'slope of the vapour pressure of water near 20 C'),
  dryStartFracWb: parameter(0.35, 'share', 'estimate', 'none: nothing left to give'),
  dryFullFracWb: parameter(0.7, 'share', 'estimate', 'none: a wet surface'),
  beddingHoldKgPerKg: parameter(4, 'kg/kg', 'estimate', 'eq9: 3 kg makes 75 %, and it still holds'),
  castingsHoldKgPerKg: parameter(3, 'kg/kg', 'estimate', 'science 8: 65-80 % as made'),
  foodHoldKgPerKg: parameter(4, 'kg/kg', 'estimate', 'none: slumped scraps at 80 %'),
  seepPerDay: parameter(0.15, '1/d', 'estimate', 'none: cells let go over a week'),
  drainPerDay: parameter(0.5, '1/d', 'estimate', 'none'),
  soilGivesKgPerM2Day: parameter(
    1,
    'kg/m2/d',
    'estimate',
    'none: damp soil lifts about a millimetre a day into a drier bed that lies on it',
  ),
  soilFullFracWb: parameter(0.55, 'share', 'estimate', 'none: dry enough to draw all that the soil can lift'),
  soilStartFracWb: parameter(0.65, 'share', 'estimate', 'none: as damp as the soil beneath, nothing moves'),
  lidded: parameter(0.3, 'kg/m2/d', 'estimate', 'none: plastic with a lid and holes'),
  breathing: parameter(0.7, 'kg/m2/d', 'estimate', 'none: cloth, trays, slats'),
  outdoors: parameter(0.9, 'kg/m2/d', 'estimate', 'none: covered bed in the open'),
  vessel: parameter(0.2, 'kg/m2/d', 'estimate', 'none: dish with a pierced lid'),
  indoorsRatio: parameter(0.8, 'ratio', 'estimate', 'none'),
  partSunRatio: parameter(1.3, 'ratio', 'estimate', 'none'),
  fullSunRatio: parameter(1.8, 'ratio', 'estimate', 'none'),
} as const;
const P = WATER_PARAMETERS;

export function evaporationKgPerM2Day(kind: BinKind): number {
  switch (kind) {
    case 'tote':
      return P.lidded.value;
    case 'tray-stack':
    case 'flow-through':
    case 'fabric':
      return P.breathing.value;
    case 'bed':
    case 'pit':
      return P.outdoors.value;
    case 'vessel':
      return P.vessel.value;
    default:
      return kind satisfies never;
  }
}

export function exposureRatio(exposure: Exposure): number {
  switch (exposure) {
    case 'indoors':
      return P.indoorsRatio.value;
    case 'shade':
      return 1;
    case 'part-sun':
      return P.partSunRatio.value;
    case 'full-sun':
      return P.fullSunRatio.value;
    default:
      return exposure satisfies never;
  }
}

/** A bin that lets surplus water out by itself. */
export const drainsItself = (kind: BinKind, openBase: boolean): boolean => openBase || (kind !== 'tote' && kind !== 'vessel');

/** What the soil under a bed without a floor lifts into it, [kg/m2/d]: no rain is known, and this keeps such a bed from drying to dust. */
export function soilGivesKgPerM2Day(moistureFracWb: number): number {
  const dry = (P.soilStartFracWb.value - moistureFracWb) / (P.soilStartFracWb.value - P.soilFullFracWb.value);
  return P.soilGivesKgPerM2Day.value * Math.min(1, Math.max(0, dry));
}

/** Evaporation by warmth and by how wet the surface still is. */
export function evaporationRatio(tempC: number, moistureFracWb: number): number {
  const wet = (moistureFracWb - P.dryStartFracWb.value) / (P.dryFullFracWb.value - P.dryStartFracWb.value);
  return Math.exp(P.evaporationPerC.value * (tempC - 20)) * Math.min(1, Math.max(0, wet));
}
