import { YOUNG_STAGES } from '../state.ts';

/** Columns that live for one step only and are overwritten each time. */
const MEMBER_SCRATCH = [
  /** Solids and water of everything in the bin, and what follows from them. */
  'beddingKg',
  'castingsKg',
  'zoneSolidsKg',
  'zoneWaterKg',
  'moistureFracWb',
  'ph',
  'wormsKg',
  /** Sum of count x mass^(2/3), [g^(2/3)]: what appetite goes by. */
  'appetiteRoot',
  'growthEnvironment',
  /** What all pools of a member share: its own ratios, its microbes, its worms. */
  'labileRatio',
  'slowRatio',
  'bedMicrobes',
  'freeDiffusion',
  'beddingLabileRate',
  'beddingSlowRate',
  'castingsLabileRate',
  'castingsSlowRate',
  'beddingLabileLostKg',
  'beddingSlowLostKg',
  'castingsLabileLostKg',
  'castingsSlowLostKg',
  /** What worms live on: aerobic rotting, weighed by quality, by quality squared, and in carbon. */
  'flowKg',
  'beddingFlowKg',
  'castingsFlowKg',
  'flowQualityKg',
  'flowCarbonKg',
  'tissueCarbonKg',
  'burntCarbonKg',
  'tissueNitrogenKg',
  'takenPerFlow',
  'tissueShare',
  'nitrogenKg',
  'nitrogenLeftFrac',
  'deadKg',
  'shrunkKg',
  'gasSolidsKg',
  'oxygenKg',
  'carbonGasKg',
  'airlessRotKg',
  'freedNitrogenKg',
  'beddingGoneFrac',
  'releasedWaterKg',
  'layerWaterKg',
  'waterLeftFrac',
  /** What worms can swallow today, the share of it that they take, and what it is once it has gone through. */
  'softKg',
  'takenFrac',
  'eatenLabileKg',
  'eatenLabileKgPerDay',
] as const;
const ZONE_SCRATCH = [
  'tempC',
  'moistureFracWb',
  'labileRate',
  'slowRate',
  'labileLostKg',
  'slowLostKg',
  'aerobicFrac',
  'flowKg',
  'labileSoftFrac',
  'slowSoftFrac',
] as const;

export type Scratch = Readonly<Record<(typeof MEMBER_SCRATCH)[number], Float64Array>> & {
  readonly zone: Readonly<Record<(typeof ZONE_SCRATCH)[number], Float64Array>>;
  /** Cube root of the mean mass of each stage, [g^(1/3)], and what it gains or loses in the step, [kg]. */
  readonly stageRoots: readonly Float64Array[];
  readonly stageChangesKg: readonly Float64Array[];
};

/** One line of a processor's cache between columns, as in the state. */
const GAP = 8;

let latest: { readonly members: number; readonly zones: number; readonly scratch: Scratch } | null = null;

/** Columns for a bin of this size, the same ones as long as the size is: every step writes what it reads, and no two steps run at once. */
export function scratchFor(members: number, zones: number): Scratch {
  if (latest?.members !== members || latest.zones !== zones) latest = { members, zones, scratch: newScratch(members, zones) };
  return latest.scratch;
}

function newScratch(members: number, zones: number): Scratch {
  const buffer = new Float64Array((members + GAP) * MEMBER_SCRATCH.length + (members * zones + GAP) * ZONE_SCRATCH.length);
  let at = 0;
  const take = (names: readonly string[], length: number) =>
    Object.fromEntries(
      names.map((name) => {
        const column = buffer.subarray(at, at + length);
        at += length + GAP;
        return [name, column];
      }),
    );
  const stages = Array.from({ length: YOUNG_STAGES + 1 }, (_, stage) => stage);
  return {
    ...take(MEMBER_SCRATCH, members),
    zone: { ...take(ZONE_SCRATCH, members * zones) },
    stageRoots: stages.map(() => new Float64Array(members)),
    stageChangesKg: stages.map(() => new Float64Array(members)),
  } as unknown as Scratch;
}
