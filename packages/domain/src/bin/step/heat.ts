import { SECONDS_PER_DAY } from '../../units/time.ts';
import { lumpedTargetC, TEMPERATURE_PARAMETERS as P, peakOverMeanC, timeConstantS } from '../temperature.ts';
import type { StepContext } from './context.ts';

const GRAMS_PER_KG = 1000;

/** The bed relaxes exactly towards air plus its own warmth; the day's peak rides on it (model.md 1.1). */
export function stepHeat({ state, scratch: s, geometry, weather, sunGainC, days }: StepContext): void {
  const { members, bed: b } = state;
  if (weather.bedTempC !== null) {
    b.bedTempC.fill(weather.bedTempC);
    b.bedPeakTempC.fill(weather.bedTempC);
    return;
  }
  const balance = { airTempC: weather.airTempC, swingC: weather.swingC, sunGainC, heatW: 0, lossWPerK: 0, capacityKjPerK: 0 };
  for (let m = 0; m < members; m++) {
    const dryKg = s.beddingKg[m]! + s.castingsKg[m]! + s.zoneSolidsKg[m]!;
    const waterKg = s.zoneWaterKg[m]! + b.bedWaterKg[m]!;
    const levelM = Math.min(geometry.depthM, contentsM(dryKg, geometry.areaM2));
    const surfaceM2 = 2 * geometry.areaM2 + geometry.perimeterM * levelM;
    const madeKj = b.oxygenUseKgPerDay[m]! * GRAMS_PER_KG * P.heatPerOxygenKjPerG.value;
    const takenKj = b.evaporationKgPerDay[m]! * P.evaporationHeatKjPerKg.value;
    balance.heatW = ((madeKj - takenKj) * 1000) / SECONDS_PER_DAY;
    balance.lossWPerK = geometry.lossWPerM2K * b.heatLossRatio[m]! * surfaceM2;
    balance.capacityKjPerK = Math.max(0.05, waterKg * P.waterHeatKjPerKgK.value + dryKg * P.solidsHeatKjPerKgK.value);
    const target = lumpedTargetC(balance);
    b.bedTempC[m] = target + (b.bedTempC[m]! - target) * Math.exp((-days * SECONDS_PER_DAY) / timeConstantS(balance));
    b.bedPeakTempC[m] = b.bedTempC[m]! + peakOverMeanC(balance);
  }
}

/** A first guess of how high the contents stand, for the walls they touch; the air step measures it properly. */
const SOLIDS_KG_PER_M3 = 150;
const contentsM = (dryKg: number, areaM2: number): number => dryKg / SOLIDS_KG_PER_M3 / areaM2;
