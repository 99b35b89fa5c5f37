/**
 * The state of all members of one bin in one buffer of doubles, a column per quantity, so that a fork is one copy,
 * a checkpoint is the buffer, and the hot loops allocate nothing.
 */
export const COCOON_STAGES = 8;
export const YOUNG_STAGES = 3;

const numbered = (name: string, count: number): readonly string[] => Array.from({ length: count }, (_, i) => `${name}${i}`);

/** What differs between members and never changes in a run but by jitter: the medians are 1. */
export const MEMBER_RATIOS = [
  'labileRateRatio',
  'slowRateRatio',
  'growthRatio',
  'appetiteRatio',
  'evaporationRatio',
  'densityRatio',
  'heatLossRatio',
] as const;
export type MemberRatio = (typeof MEMBER_RATIOS)[number];

const BED_COLUMNS = [
  'bedTempC',
  'bedPeakTempC',
  'bedWaterKg',
  /** Sum of (neutral pH - pH) x dry mass; falls as acids are eaten. */
  'acidPhKg',
  'maturityFrac',
  'bedLooseFrac',
  'bedSettledFrac',
  'bedAirlessFrac',
  'baseOxygenFrac',
  'bedAirFilledPorosity',
  'beddingLabileKg',
  'beddingSlowKg',
  'beddingAshKg',
  'beddingCarbonKg',
  'beddingNitrogenKg',
  'beddingLabileRatePerDay',
  'beddingSlowRatePerDay',
  'beddingQuality',
  'castingsLabileKg',
  'castingsSlowKg',
  'castingsAshKg',
  'castingsCarbonKg',
  'castingsNitrogenKg',
  'castingsLabileRatePerDay',
  /** What the last whole day used and gave. */
  'oxygenUseKgPerDay',
  'carbonGasKgPerDay',
  'evaporationKgPerDay',
  'foodRatio',
  'appetiteKgDbPerDay',
  'rottingCarbonKg',
  'rottingNitrogenKg',
] as const;

export const LEDGER_NAMES = ['carbon', 'nitrogen', 'water'] as const;
export type LedgerName = (typeof LEDGER_NAMES)[number];
export const LEDGER_SIDES = ['In', 'Gas', 'Drained', 'Harvested', 'Removed', 'Unaccounted'] as const;
export type LedgerSide = (typeof LEDGER_SIDES)[number];
const LEDGER_COLUMNS = LEDGER_NAMES.flatMap((name) => LEDGER_SIDES.map((side) => `${name}${side}Kg` as const));

export type BedColumn = (typeof BED_COLUMNS)[number];
export type LedgerColumn = `${LedgerName}${LedgerSide}Kg`;
type WormColumn = `cocoonCount${number}` | `youngCount${number}` | `youngKg${number}` | 'adultCount' | 'adultKg';
export type MemberColumn = 'weight' | MemberRatio | BedColumn | LedgerColumn | WormColumn;

export const MEMBER_COLUMNS = [
  'weight',
  ...MEMBER_RATIOS,
  ...BED_COLUMNS,
  ...LEDGER_COLUMNS,
  ...numbered('cocoonCount', COCOON_STAGES),
  ...numbered('youngCount', YOUNG_STAGES),
  ...numbered('youngKg', YOUNG_STAGES),
  'adultCount',
  'adultKg',
] as readonly MemberColumn[];

export const ZONE_COLUMNS = [
  'labileKg',
  'slowKg',
  'ashKg',
  'waterKg',
  'carbonKg',
  'nitrogenKg',
  'labileRatePerDay',
  'slowRatePerDay',
  'quality',
  /** Room the layer takes before settling. */
  'looseVolumeM3',
  'settledFrac',
  'looseFrac',
  /** Dry bedding mixed into the layer: its solids are counted in the bed, its room and its thirst here. */
  'mixedBeddingKg',
  'depthM',
  'airDepthM',
  'airlessFrac',
  'airFilledPorosity',
  'localRiseC',
  /** Share of the last feeding's solids, and of the watched feeding's labile part, that is still there. */
  'lastLeftFrac',
  'watchedLabileFrac',
] as const;
export type ZoneColumn = (typeof ZONE_COLUMNS)[number];

/** What all members agree on because it stands in the log; -1 means never. */
export const BIN_MARKS = [
  'lastFedDay',
  'lastCheckDay',
  'lastLoosenedDay',
  'lastInoculatedDay',
  'lastHarvestDay',
  'exposure',
  'larvaeDay',
] as const;
export type BinMark = (typeof BIN_MARKS)[number];
export const ZONE_MARKS = ['coverDepthM', 'zoneFedDay', 'zoneFedKg', 'watchedFedDay'] as const;
export type ZoneMark = (typeof ZONE_MARKS)[number];

export type Columns<Name extends string> = Readonly<Record<Name, Float64Array>>;

export interface BinState {
  readonly members: number;
  readonly zones: number;
  /** Everything below is a view into this. */
  readonly buffer: Float64Array;
  readonly bed: Columns<MemberColumn>;
  /** Zone-major: entry zone * members + member. */
  readonly zone: Columns<ZoneColumn>;
  /** The worms' stages in order, as arrays of columns for the loops. */
  readonly cocoonCounts: readonly Float64Array[];
  readonly stageCounts: readonly Float64Array[];
  readonly stageKgs: readonly Float64Array[];
  readonly marks: Columns<BinMark>;
  readonly zoneMarks: Columns<ZoneMark>;
}

/**
 * Empty places between columns, one line of a processor's cache: columns of 64 or 256 doubles side by side would all
 * fall on the same few lines of it and push one another out.
 */
const GAP = 8;

export const stateLength = (members: number, zones: number): number =>
  (members + GAP) * MEMBER_COLUMNS.length +
  (members * zones + GAP) * ZONE_COLUMNS.length +
  (1 + GAP) * BIN_MARKS.length +
  (zones + GAP) * ZONE_MARKS.length;

/** A column by a name made up at run time. */
export const columnOf = (bed: Columns<MemberColumn>, name: string): Float64Array => bed[name as 'weight'];

/** A state over a buffer: of zeros when none is given. */
export function stateOver(members: number, zones: number, buffer = new Float64Array(stateLength(members, zones))): BinState {
  let at = 0;
  const take = <Name extends string>(names: readonly Name[], length: number): Columns<Name> => {
    const columns = {} as Record<Name, Float64Array>;
    for (const name of names) {
      columns[name] = buffer.subarray(at, at + length);
      at += length + GAP;
    }
    // A copy by spread has a fixed layout; an object filled by computed names is a hash table, and every read in the kernel a look-up.
    return { ...columns };
  };
  const bed = take(MEMBER_COLUMNS, members);
  const zone = take(ZONE_COLUMNS, members * zones);
  const marks = take(BIN_MARKS, 1);
  const zoneMarks = take(ZONE_MARKS, zones);
  const youngCounts = numbered('youngCount', YOUNG_STAGES).map((name) => columnOf(bed, name));
  const youngKgs = numbered('youngKg', YOUNG_STAGES).map((name) => columnOf(bed, name));
  return {
    members,
    zones,
    buffer,
    bed,
    zone,
    marks,
    zoneMarks,
    cocoonCounts: numbered('cocoonCount', COCOON_STAGES).map((name) => columnOf(bed, name)),
    stageCounts: [...youngCounts, bed.adultCount],
    stageKgs: [...youngKgs, bed.adultKg],
  };
}

export const copyState = (state: BinState): BinState => stateOver(state.members, state.zones, state.buffer.slice());
