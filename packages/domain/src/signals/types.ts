/** Bands of a signal and of a bin. `unknown` when there is too little to go on. */
export const BANDS = ['settled', 'watch', 'act', 'unknown'] as const;
export type Band = (typeof BANDS)[number];

export const SIGNAL_IDS = [
  'airless',
  'overfed',
  'hungry',
  'dry',
  'wet',
  'hot',
  'cold',
  'sour',
  'ammonia',
  'bedding-low',
  'harvest-due',
  'unseen',
] as const;
export type SignalId = (typeof SIGNAL_IDS)[number];

/** A reason is a code with values; the words live in the web's messages, so a second language is one file. */
export interface Reason {
  readonly code: ReasonCode;
  readonly values: Readonly<Record<string, number | string>>;
  /** Log entries behind it. */
  readonly entryIds: readonly string[];
}

export const REASON_CODES = [
  'layer-deep', // values: zone, layerDepthM, airDepthM
  'fed-much', // zone, massKg, capKg, day
  'fed-without-bedding', // zone, day
  'food-in-hand', // days, limitDays
  'feeding-left', // zone, leftFrac, days
  'food-short', // days
  'too-dry',
  'too-wet', // moistureFracWb
  'packed', // airFilledPorosity
  'bed-hot',
  'bed-cold', // tempC
  'air-hot',
  'air-cold', // tempC
  'smelled', // smell, day
  'squeezed', // squeeze, day
  'ph-low', // ph
  'nitrogen-high', // cnRatio
  'bedding-eaten', // beddingFrac, minFrac
  'castings-deep', // castingsKg, levelM, markM
  'bin-old', // ageDays, sinceHarvestDays
  'not-seen', // days, intervalDays
] as const;
export type ReasonCode = (typeof REASON_CODES)[number];

export const REMEDY_IDS = [
  'hold-next-feed',
  'feed-half',
  'feed-now',
  'take-out-uneaten',
  'loosen',
  'mix-in-bedding',
  'add-bedding',
  'add-water',
  'drain',
  'shade',
  'insulate',
  'harvest',
  'inoculate',
  'ground-eggshell',
  'check',
] as const;
export type RemedyId = (typeof REMEDY_IDS)[number];

export const CAUTION_IDS = [
  'gloves',
  'damp-not-dusty',
  'pupils',
  'lifting',
  'leachate',
  'castings-on-food',
  'food-from-outside',
  'lime',
  'flooding',
  'heating',
  'no-poison',
] as const;
export type CautionId = (typeof CAUTION_IDS)[number];

export interface RemedyStep {
  readonly id: RemedyId;
  readonly zone: number | null;
  /** Bedding, water or castings to add or take [kg]; null where no amount belongs. */
  readonly massKg: number | null;
}

export interface Remedy extends RemedyStep {
  /** A second thing done with the first, where the two together help clearly more than either; null for one alone. */
  readonly also: RemedyStep | null;
  /** Of both steps. */
  readonly effortMinutes: number;
  readonly probabilityBefore: number;
  readonly probabilityAfter: number;
  readonly cautions: readonly CautionId[];
}

export const LOOKS = ['leftover', 'squeeze', 'smell', 'worms'] as const;
export type Look = (typeof LOOKS)[number];

/** The one look that would narrow the answer most. */
export interface Ask {
  readonly look: Look;
  readonly zone: number | null;
  /** Share of today's doubt (variance of yes or no) that it takes away on average, 0 to 1. */
  readonly narrowedFrac: number;
}

export interface SignalOutlook {
  readonly id: SignalId;
  readonly band: Band;
  /** The band that today's figures alone ask for; the next look must ask for it too before it is shown. */
  readonly asked: Band;
  /** The flag that speaks for this one too, because both have one cause; null when it speaks for itself. */
  readonly partOf: SignalId | null;
  /** Weighted share of members in which it holds now or begins within 7 days, 0 to 1. */
  readonly probability: number;
  readonly holdsNow: boolean;
  /** Scenario day on which it is first likely (share >= 0.5), or null. */
  readonly firstLikelyDay: number | null;
  /** First day of the unbroken stretch in which it has held, as far back as is kept; null when it does not hold now. */
  readonly sinceDay: number | null;
  readonly zone: number | null;
  readonly reasons: readonly Reason[];
  /** Best first. */
  readonly remedies: readonly Remedy[];
  /** What to look at to be surer; null where there is no doubt, as with one member. */
  readonly ask: Ask | null;
}
