import { numberOfText } from '../ensemble/chance.ts';
import { stockRatio, weightRatio } from '../ensemble/priors.ts';
import { DECAY_PARAMETERS } from './decay.ts';
import type { Geometry } from './geometry.ts';
import { OXYGEN_PARAMETERS } from './oxygen.ts';
import { parameter } from './parameter.ts';
import { type Charge, chargeOf, putBedding, putFinished, putFood } from './put.ts';
import { removeShare, takeHarvest } from './remove.ts';
import { type BinEvent, EXPOSURES, type HowMeasured, type Scenario } from './scenario.ts';
import { addStock } from './start.ts';
import type { BinState } from './state.ts';
import { capacityKg } from './water-balance.ts';

export const EVENT_PARAMETERS = {
  usualCoverM: parameter(0.03, 'm', 'common practice', 'common practice: a hand of shredded paper'),
  inoculantGain: DECAY_PARAMETERS.inoculationGain,
} as const;

export interface EventContext {
  readonly state: BinState;
  readonly scenario: Scenario;
  readonly geometry: Geometry;
  readonly day: number;
}

type Of<T extends BinEvent['type']> = Extract<BinEvent, { type: T }>;

type Apply<T extends BinEvent['type']> = (context: EventContext, event: Of<T>, key: number) => void;

/** One action for each type of entry. */
const ACTIONS: { readonly [T in BinEvent['type']]: Apply<T> } = {
  feeding: applyFeeding,
  bedding: applyBedding,
  check: ({ state, day }, event) => {
    state.marks.lastCheckDay[0] = day;
    if (event.visitors?.includes('soldier-fly-larvae')) state.marks.larvaeDay[0] = day;
  },
  loosen: applyLoosen,
  water: ({ state }, event) => {
    for (let m = 0; m < state.members; m++) {
      state.bed.bedWaterKg[m]! += event.massKg;
      state.bed.waterInKg[m]! += event.massKg;
    }
  },
  drain: applyDrain,
  inoculate: applyInoculate,
  cover: applyCover,
  move: ({ state }, event) => {
    if (event.exposure !== undefined) state.marks.exposure[0] = EXPOSURES.indexOf(event.exposure);
  },
  harvest: ({ state, day }, event) => {
    state.marks.lastHarvestDay[0] = day;
    for (let m = 0; m < state.members; m++) takeHarvest(state, m, event.massKg);
  },
  'add-worms': ({ state, scenario }, event, key) => {
    for (let m = 0; m < state.members; m++)
      addStock(state, m, scenario, { massKg: event.massKg }, stockRatio(state.members, m, scenario.seed ^ key, false));
  },
  remove: ({ state, scenario }, event) => {
    for (let m = 0; m < state.members; m++) removeShare(state, m, scenario, event);
  },
};

/** Applies one log entry to every member; `entry` numbers it for the weight errors. */
export function applyEvent<T extends BinEvent['type']>(context: EventContext, event: Of<T>, entry: number): void {
  const action = ACTIONS[event.type] as Apply<T>;
  action(context, event, event.entryId === undefined ? entry : numberOfText(event.entryId));
}

function massOf(context: EventContext, m: number, massKg: number, how: HowMeasured | undefined, key: number, item: number): number {
  return massKg * weightRatio(context.state.members, m, context.scenario.seed, key, item, how ?? 'weighed');
}

function applyFeeding(context: EventContext, event: Of<'feeding'>, key: number): void {
  const { state, day } = context;
  const zone = event.zone - 1;
  const charges = event.items.map(chargeOf);
  const foodKg = event.items.reduce((sum, item, i) => sum + (charges[i]!.isMineral ? 0 : item.massKg), 0);
  const bedding = event.beddingKg ? chargeOf({ material: event.beddingMaterial ?? 'cardboard_corrugated', massKg: event.beddingKg }) : null;
  for (let m = 0; m < state.members; m++) {
    charges.forEach((charge, i) => {
      const item = event.items[i]!;
      putInZone(state, m, zone, charge, massOf(context, m, item.massKg, item.how, key, i));
    });
    if (bedding) putBedding(state, m, bedding, event.beddingKg!, zone);
    state.zone.waterKg[zone * state.members + m]! += event.waterKg ?? 0;
    state.bed.waterInKg[m]! += event.waterKg ?? 0;
  }
  if (foodKg > 0) markFed(context, zone, foodKg);
  state.marks.lastFedDay[0] = day;
}

function putInZone(state: BinState, member: number, zone: number, charge: Charge, massKg: number): void {
  if (charge.isFinished) putFinished(state, member, charge, massKg);
  else if (charge.isMineral) putBedding(state, member, charge, massKg, zone);
  else putFood(state, member, zone, charge, massKg);
}

/** Days after which a feeding should be half gone; the one watched for it gives way to a newer one only then. */
export const WATCH_DAYS = 10;

function markFed({ state, day }: EventContext, zone: number, foodKg: number): void {
  const { zoneMarks } = state;
  zoneMarks.zoneFedDay[zone] = day;
  zoneMarks.zoneFedKg[zone] = foodKg;
  const watched = zoneMarks.watchedFedDay[zone]!;
  const watchAnew = watched < 0 || day - watched > WATCH_DAYS;
  if (watchAnew) zoneMarks.watchedFedDay[zone] = day;
  for (let m = 0; m < state.members; m++) {
    state.zone.lastLeftFrac[zone * state.members + m] = 1;
    if (watchAnew) state.zone.watchedLabileFrac[zone * state.members + m] = 1;
  }
}

function applyBedding(context: EventContext, event: Of<'bedding'>, key: number): void {
  const { state, geometry } = context;
  const zones = event.zone === undefined ? Array.from({ length: state.zones }, (_, z) => z) : [event.zone - 1];
  event.items.forEach((item, i) => {
    const charge = chargeOf(item);
    for (let m = 0; m < state.members; m++) {
      const massKg = massOf(context, m, item.massKg, item.how, key, i);
      if (charge.isFinished) putFinished(state, m, charge, massKg);
      else if (event.mixedIn) for (const zone of zones) putBedding(state, m, charge, massKg / zones.length, zone);
      else putBedding(state, m, charge, massKg, null);
    }
    if (event.mixedIn || charge.isFinished) return;
    const coverM = (item.massKg * charge.dryFrac) / (OXYGEN_PARAMETERS.beddingDryKgM3.value * geometry.zoneAreaM2 * zones.length);
    for (const zone of zones) state.zoneMarks.coverDepthM[zone]! += coverM;
  });
}

function applyLoosen({ state, day }: EventContext, event: Of<'loosen'>): void {
  state.marks.lastLoosenedDay[0] = day;
  for (let zone = 0; zone < state.zones; zone++) {
    if (event.zone !== undefined && event.zone - 1 !== zone) continue;
    state.zoneMarks.coverDepthM[zone] = 0;
    const from = zone * state.members;
    state.zone.looseFrac.fill(1, from, from + state.members);
    state.zone.settledFrac.fill(0, from, from + state.members);
  }
  const share = event.zone === undefined ? 1 : 1 / state.zones;
  for (let m = 0; m < state.members; m++) {
    state.bed.bedLooseFrac[m] = Math.max(state.bed.bedLooseFrac[m]!, share);
    state.bed.bedSettledFrac[m]! *= 1 - share;
  }
}

function applyDrain({ state }: EventContext, event: Of<'drain'>): void {
  for (let m = 0; m < state.members; m++) {
    const have = state.bed.bedWaterKg[m]!;
    const outKg = event.massKg === undefined ? Math.max(0, have - capacityKg(state, m)) : Math.min(event.massKg, have);
    state.bed.bedWaterKg[m] = have - outKg;
    state.bed.waterDrainedKg[m]! += outKg;
    if (event.massKg !== undefined) state.bed.waterUnaccountedKg[m]! += event.massKg - outKg;
  }
}

function applyInoculate({ state, day }: EventContext, { massKg }: Of<'inoculate'>): void {
  state.marks.lastInoculatedDay[0] = day;
  for (let m = 0; m < state.members; m++)
    state.bed.maturityFrac[m]! += (1 - state.bed.maturityFrac[m]!) * EVENT_PARAMETERS.inoculantGain.value;
  if (massKg === undefined) return;
  const charge = chargeOf({ material: 'compost_finished', massKg });
  for (let m = 0; m < state.members; m++) putFinished(state, m, charge, massKg);
}

function applyCover({ state }: EventContext, event: Of<'cover'>): void {
  const depthM = event.depthM ?? EVENT_PARAMETERS.usualCoverM.value;
  for (let zone = 0; zone < state.zones; zone++)
    if (event.zone === undefined || event.zone - 1 === zone) state.zoneMarks.coverDepthM[zone] = depthM;
}
