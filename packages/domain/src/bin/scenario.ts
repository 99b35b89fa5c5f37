/**
 * What a bin is and what happened to it: the one input of the model.
 *
 * The shapes are those of `middenry-scenario/1` (docs/reference/scenario.md), so a file for
 * `npx middenry simulate`, a row history read by the API and a test all speak the same words.
 * Days are whole numbers counted from the start of the scenario; an event of day d acts at the
 * start of day d. Masses are kilograms as put in (wet) unless the name says otherwise.
 */
import type { MaterialId } from '../materials/catalogue.gen.ts';

export const BIN_KINDS = ['tote', 'tray-stack', 'flow-through', 'fabric', 'bed', 'pit', 'vessel'] as const;
export type BinKind = (typeof BIN_KINDS)[number];

export const LEFTOVERS = ['none', 'little', 'half', 'most', 'all'] as const;
export type Leftover = (typeof LEFTOVERS)[number];
export const SQUEEZES = ['crumbles', 'damp', 'one-two-drops', 'few-drops', 'trickle'] as const;
export type Squeeze = (typeof SQUEEZES)[number];
export const SMELLS = ['earthy', 'sour', 'rotten', 'ammonia'] as const;
export type Smell = (typeof SMELLS)[number];
export const WORM_SIGHTINGS = ['none', 'few', 'some', 'many'] as const;
export type WormSighting = (typeof WORM_SIGHTINGS)[number];
export const HOW_MEASURED = ['weighed', 'container', 'guessed'] as const;
export type HowMeasured = (typeof HOW_MEASURED)[number];
export const PREPARATIONS = ['whole', 'chopped', 'frozen', 'pureed'] as const;
export type Preparation = (typeof PREPARATIONS)[number];
export const EXPOSURES = ['indoors', 'shade', 'part-sun', 'full-sun'] as const;
export type Exposure = (typeof EXPOSURES)[number];
export const VISITORS = [
  'fruit-flies',
  'fungus-gnats',
  'soldier-fly-larvae',
  'mites',
  'springtails',
  'potworms',
  'ants',
  'slugs',
  'centipedes',
  'flatworms',
  'rodents',
  'other',
] as const;
export type Visitor = (typeof VISITORS)[number];
export const SPECIES = ['eisenia-fetida', 'eisenia-andrei', 'dendrobaena-veneta'] as const;
export type Species = (typeof SPECIES)[number];

/** A food or bedding described by numbers instead of a catalogue key; rates at 20 C, 75 % moisture, chopped, with worms. */
export interface Composition {
  readonly moistureFracWb: number;
  readonly organicFracDb: number;
  readonly carbonFracDb: number;
  readonly nitrogenFracDb: number;
  readonly labileFrac: number;
  readonly labileRatePerDay: number;
  readonly slowRatePerDay: number;
  /** How well it grows worms, 1 = mixed kitchen scraps. */
  readonly qualityRatio?: number;
  readonly ph?: number;
}

export interface Portion {
  readonly material?: MaterialId | string;
  readonly composition?: Composition;
  readonly massKg: number;
  readonly how?: HowMeasured;
  readonly preparation?: Preparation;
  readonly preCompostedDays?: number;
}

export interface WormStart {
  readonly massKg?: number;
  readonly adults?: number;
  readonly juveniles?: number;
  readonly cocoons?: number;
  readonly meanMassMg?: number;
  readonly species?: Species;
  /** The experimenter takes the cocoons away, as most growth studies do. */
  readonly cocoonsRemoved?: boolean;
}

export interface BinSetup {
  readonly kind: BinKind;
  readonly areaM2: number;
  readonly depthM: number;
  /** Feeding zones seen from above, 1 to 12. */
  readonly zones: number;
  readonly openBase: boolean;
  readonly ageDays: number;
  readonly exposure?: Exposure;
  readonly worms: WormStart;
  readonly bed: readonly Portion[];
  readonly bedWaterKg: number;
}

/** Exactly one way of saying how warm it is; `bedTempC` prescribes the bed itself. */
export interface Climate {
  readonly tempC?: number;
  readonly dailyTempC?: readonly number[];
  readonly bedTempC?: number;
  /** Twelve monthly mean daily minima and maxima of the air, January first, with the day of year (1 to 366) of day 0. */
  readonly monthly?: { readonly minC: readonly number[]; readonly maxC: readonly number[]; readonly firstDayOfYear: number };
  /** Readings of the air that override the rest: [day, mean C]. */
  readonly readings?: readonly (readonly [number, number])[];
  /** A laboratory dish held at one moisture. */
  readonly moistureFracWb?: number;
}

interface EventBase {
  readonly day: number;
  /** The log entry this came from, so that a flag can name it. */
  readonly entryId?: string;
}

export type BinEvent = EventBase &
  (
    | {
        readonly type: 'feeding';
        readonly zone: number;
        readonly items: readonly Portion[];
        readonly beddingKg?: number;
        readonly beddingMaterial?: MaterialId | string;
        readonly waterKg?: number;
      }
    | { readonly type: 'bedding'; readonly items: readonly Portion[]; readonly zone?: number; readonly mixedIn?: boolean }
    | {
        readonly type: 'check';
        /** Keys are zone numbers as text. */
        readonly leftover?: Readonly<Record<string, Leftover>>;
        readonly squeeze?: Squeeze;
        readonly smell?: Smell;
        readonly tempC?: number;
        readonly worms?: WormSighting;
        readonly ph?: number;
        readonly levelM?: number;
        readonly visitors?: readonly Visitor[];
      }
    | { readonly type: 'loosen'; readonly zone?: number }
    | { readonly type: 'water'; readonly massKg: number }
    | { readonly type: 'drain'; readonly massKg?: number }
    | { readonly type: 'inoculate'; readonly massKg?: number }
    | { readonly type: 'cover'; readonly depthM?: number; readonly zone?: number }
    | { readonly type: 'move'; readonly exposure?: Exposure }
    /** Only one that was weighed teaches; left out: it was. */
    | { readonly type: 'harvest'; readonly massKg: number; readonly how?: HowMeasured }
    | { readonly type: 'add-worms'; readonly massKg: number }
    | {
        readonly type: 'remove';
        readonly cocoonsFrac?: number;
        readonly wormsFrac?: number;
        readonly foodFrac?: number;
        readonly zone?: number;
      }
  );

export interface Scenario {
  readonly schema: 'middenry-scenario/1';
  readonly days: number;
  readonly members: number;
  readonly seed: number;
  readonly bin: BinSetup;
  readonly climate: Climate;
  readonly events: readonly BinEvent[];
}
