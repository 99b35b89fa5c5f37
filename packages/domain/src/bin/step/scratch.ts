/** Columns that live for one step only, owned by the run's kernel and overwritten each time. */
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
  'deadKg',
  'shrunkKg',
  'gasSolidsKg',
  'oxygenKg',
  'carbonGasKg',
  'airlessRotKg',
  'freedNitrogenKg',
  'beddingGoneFrac',
  'releasedWaterKg',
] as const;
const ZONE_SCRATCH = ['tempC', 'moistureFracWb', 'labileRate', 'slowRate', 'labileLostKg', 'slowLostKg', 'aerobicFrac', 'flowKg'] as const;

export type Scratch = Readonly<Record<(typeof MEMBER_SCRATCH)[number], Float64Array>> & {
  readonly zone: Readonly<Record<(typeof ZONE_SCRATCH)[number], Float64Array>>;
};

export function scratchFor(members: number, zones: number): Scratch {
  const columns = Object.fromEntries(MEMBER_SCRATCH.map((name) => [name, new Float64Array(members)]));
  const zone = Object.fromEntries(ZONE_SCRATCH.map((name) => [name, new Float64Array(members * zones)]));
  return { ...columns, zone } as unknown as Scratch;
}
