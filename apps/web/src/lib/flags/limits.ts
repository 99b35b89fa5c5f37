import { BIN_KINDS, type BinKind, KIND_MARKS, SIGNALS, type SignalId } from '@middenry/domain';
import type { Format } from '../format/format.ts';
import type { ForFlags } from '../messages/shape.ts';
import { readValues, type Values } from '../messages/values.ts';

/** The limit that has the dead band, and on which side of it things are well again. */
const MAIN: Readonly<Record<SignalId, readonly [limit: string, side: 1 | -1]>> = {
  airless: ['airlessFrac', -1],
  overfed: ['foodInHandDays', -1],
  hungry: ['foodInHandDays', 1],
  dry: ['moistureFracWb', 1],
  wet: ['moistureFracWb', -1],
  hot: ['bedPeakTempC', -1],
  cold: ['bedTempC', 1],
  sour: ['ph', 1],
  ammonia: ['cnRatio', 1],
  'bedding-low': ['beddingFracOfSolids', 1],
  'harvest-due': ['deep', -1],
  unseen: ['intervals', -1],
};

export interface Limits {
  /** Of which kinds of bin; empty where it is the same for all. */
  readonly kinds: readonly BinKind[];
  /** Nothing where these kinds are not looked at for it. */
  readonly from: readonly string[];
  readonly until: string;
}

/** The limits of a signal by name, for a kind of bin where each kind has its own. */
function valuesOf(id: SignalId, kind: BinKind): Values {
  const { beddingMinFrac, castingsDeepFrac, harvestAgeDays, castingsWorthFrac } = KIND_MARKS[kind];
  const ofKind = {
    'bedding-low': { beddingFracOfSolids: beddingMinFrac.value },
    'harvest-due': { deep: castingsDeepFrac.value, age: harvestAgeDays.value, worth: castingsWorthFrac.value },
  };
  if (id === 'bedding-low' || id === 'harvest-due') return ofKind[id];
  return Object.fromEntries(Object.entries(SIGNALS[id].thresholds).map(([name, { value }]) => [name, value]));
}

const isLookedFor = (values: Values) => Object.values(values).every((value) => value !== 0 && value !== Number.POSITIVE_INFINITY);

/** From where on a signal speaks and where it is over, in words: once for all bins, or once for the kinds that are alike. */
export function limitsOf(id: SignalId, w: ForFlags, f: Format): Limits[] {
  const said = (kind: BinKind): Limits => {
    const values = valuesOf(id, kind);
    if (!isLookedFor(values)) return { kinds: [], from: [], until: '' };
    const [limit, side] = MAIN[id];
    const back = Number(values[limit]) + side * SIGNALS[id].deadBand.value;
    const reading = readValues({ ...values, back }, f);
    return { kinds: [], from: w.each[id].from(reading), until: w.each[id].until(reading) };
  };
  const apart = new Map<string, BinKind[]>();
  for (const kind of BIN_KINDS) {
    const key = JSON.stringify(said(kind));
    apart.set(key, [...(apart.get(key) ?? []), kind]);
  }
  return [...apart.values()].map((kinds) => ({ ...said(kinds[0]!), kinds: apart.size > 1 ? kinds : [] }));
}
