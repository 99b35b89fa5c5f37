import { parameter } from './parameter.ts';
import type { BinSetup } from './scenario.ts';
import { TEMPERATURE_PARAMETERS } from './temperature.ts';
import { drainsItself, evaporationKgPerM2Day } from './water.ts';

export const GEOMETRY_PARAMETERS = {
  wallsPerSide: parameter(4, '1', 'estimate', 'none: a square plan'),
} as const;

/** What a bin's shape fixes, the same for every member and every day. */
export interface Geometry {
  readonly areaM2: number;
  readonly zoneAreaM2: number;
  readonly depthM: number;
  readonly perimeterM: number;
  readonly openBase: boolean;
  /** Air and water pass below the layers. */
  readonly ventedBase: boolean;
  readonly drains: boolean;
  readonly evaporationKgPerM2Day: number;
  readonly lossWPerM2K: number;
}

export function geometryOf(bin: BinSetup): Geometry {
  const vessel = bin.kind === 'vessel';
  return {
    areaM2: bin.areaM2,
    zoneAreaM2: bin.areaM2 / bin.zones,
    depthM: bin.depthM,
    perimeterM: GEOMETRY_PARAMETERS.wallsPerSide.value * Math.sqrt(bin.areaM2),
    openBase: bin.openBase,
    ventedBase: bin.openBase || bin.kind === 'tray-stack' || bin.kind === 'flow-through' || bin.kind === 'fabric',
    drains: drainsItself(bin.kind, bin.openBase),
    evaporationKgPerM2Day: evaporationKgPerM2Day(bin.kind),
    lossWPerM2K: vessel ? TEMPERATURE_PARAMETERS.vesselLossWPerM2K.value : TEMPERATURE_PARAMETERS.binLossWPerM2K.value,
  };
}
