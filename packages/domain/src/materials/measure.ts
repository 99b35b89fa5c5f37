import { kgPerM3FromKgPerLitre } from '../units/volume.ts';

/** Carbon share of volatile solids is one over this. */
const VOLATILE_PER_CARBON = { value: 1.8, evidence: 'published', source: 'cornell-carbon' } as const;

/**
 * Moisture of a sample dried in a dish.
 *
 * M = (wet - dry) / wet
 *
 * @shape scalar -> scalar
 * @returns Moisture, wet basis
 * @valid dry no heavier than wet, wet above 0
 * @throws {RangeError} outside
 * @source cornell-moisture
 */
export function moistureFromOven(sample: { readonly wetG: number; readonly dishG: number; readonly dishAndDryG: number }): number {
  const dryG = sample.dishAndDryG - sample.dishG;
  if (!(sample.wetG > 0 && dryG >= 0 && dryG <= sample.wetG)) {
    throw new RangeError(
      `Cannot weigh moisture as the dry sample lies between 0 and the wet one: current value is ${dryG} g of ${sample.wetG} g`,
    );
  }
  return (sample.wetG - dryG) / sample.wetG;
}

/** Wet mass that holds a wanted dry mass, from one sample dried. @source cornell-microbes */
export function wetMassForDry(sample: { readonly wetG: number; readonly dryG: number }, wantedDryG: number): number {
  return wetToDryRatio(sample) * wantedDryG;
}

export const wetToDryRatio = (sample: { readonly wetG: number; readonly dryG: number }): number => sample.wetG / sample.dryG;

/**
 * Bulk density by weighing a full container.
 *
 * (full - empty) / volume
 *
 * @shape scalar -> scalar
 * @returns Density, [kg/m3]
 * @valid full no lighter than empty, volume above 0
 * @throws {RangeError} outside
 * @source eawag-bulk-density
 */
export function bulkDensityFromContainer(weighing: {
  readonly emptyKg: number;
  readonly fullKg: number;
  readonly volumeL: number;
}): number {
  const netKg = weighing.fullKg - weighing.emptyKg;
  if (!(netKg >= 0 && weighing.volumeL > 0)) {
    throw new RangeError(
      `Cannot weigh density as a full container is no lighter than an empty one: current value is ${netKg} kg in ${weighing.volumeL} L`,
    );
  }
  return kgPerM3FromKgPerLitre(netKg / weighing.volumeL);
}

/** Mass of a filled container. @source merseyside-density */
export const massFromVolume = (volumeL: number, densityKgPerL: number): number => volumeL * densityKgPerL;

/**
 * Carbon from ash.
 *
 * C = (1 - ash) / 1.8
 *
 * @shape scalar -> scalar
 * @returns Carbon of dry mass; too high by a fifth for starch and sugar
 * @valid ash 0 to 1
 * @source cornell-carbon
 */
export const carbonFracFromAsh = (ashFracDb: number): number => (1 - ashFracDb) / VOLATILE_PER_CARBON.value;

/**
 * Share of volatile solids lost, from ash before and after (ash is conserved).
 *
 * loss = 1 - a_i (1 - a_f) / (a_f (1 - a_i))
 *
 * @shape scalar -> scalar
 * @returns Loss, 0 to 1; negative when ash came in besides
 * @valid both above 0 and below 1
 * @source derived-vectors
 */
export function volatileLossFromAsh(ashBeforeFracDb: number, ashAfterFracDb: number): number {
  return 1 - (ashBeforeFracDb * (1 - ashAfterFracDb)) / (ashAfterFracDb * (1 - ashBeforeFracDb));
}

/**
 * Wet castings out of what went in.
 *
 * out = dry_in (1 - loss) / (1 - w_out)
 *
 * @shape scalar -> scalar
 * @returns Mass, [kg wet]
 * @valid loss 0 to 1, moisture 0 to below 1
 * @source derived-vectors (EQ8)
 */
export function wetMassAfterLoss(dryInKg: number, lossFracDb: number, moistureFracWb: number): number {
  return (dryInKg * (1 - lossFracDb)) / (1 - moistureFracWb);
}
