import type { BinSetup } from '../bin/scenario.ts';
import { cardinalRatio } from '../bin/temperature.ts';
import { WORM_PARAMETERS } from '../bin/worms.ts';
import { type MixFacts, massForCn, massForMoisture } from '../materials/blend.ts';
import { materialOf } from '../materials/material.ts';
import { type LogFacts, stillSmells } from '../signals/log-facts.ts';
import type { BinDay, ZoneDay } from '../signals/member-day.ts';
import { FEED_PARAMETERS as P } from './feed-parameters.ts';
import type { FeedAdvice, FeedLimit, HoldReason } from './types.ts';

/** What the advice is made from. */
export interface FeedScene {
  readonly setup: BinSetup;
  readonly bin: BinDay;
  readonly log: LogFacts;
  readonly resting: boolean;
  /** The site's usual scraps and bedding; by numbers or by catalogue row. */
  readonly food?: MixFacts;
  readonly bedding?: MixFacts;
  /** What comes within 14 days of this feeding, by few members or by all. */
  readonly troubleAfter: (feeding: FeedingPlan, by: 'few' | 'all') => Trouble;
}

/** Share of members in which food runs out of air, piles up, or either. */
export interface Trouble {
  readonly airless: number;
  readonly overfed: number;
  readonly either: number;
}

export interface FeedingPlan {
  readonly massKg: number;
  readonly beddingKg: number;
  /** Shared equally among these. */
  readonly zones: readonly number[];
}

/**
 * Food for a whole week at EQ12's rate, before anything is held back.
 *
 * F = min(r0 B, 0.7 A) f_feed(T) / f_feed(20) s, times 7 days
 *
 * @shape scalar -> scalar
 * @returns Mass, [kg wet food per week]
 * @valid any temperature; 0 outside the worms' limits
 * @source feed-advice-default, osu-area-load (EQ12)
 */
export function weeklyRationKg(scene: Pick<FeedScene, 'setup' | 'bin'>): number {
  const { setup, bin } = scene;
  const perDayKg = Math.min(P.perWormKgPerKgDay.value * bin.wormsKg, P.perAreaKgPerM2Day.value * setup.areaM2);
  const isNew = bin.ageDays < P.newBinDays.value ? P.newBinRatio.value : 1;
  const leftover = bin.foodInHandDays > P.leftoverDays.value ? P.leftoverRatio.value : 1;
  return perDayKg * P.rationDays.value * isNew * leftover * Math.min(1, feedRatio(bin.bedTempC) / feedRatio(FEED_TEMP_C));
}

const FEED_TEMP_C = 20;
const feedRatio = (tempC: number): number =>
  cardinalRatio(tempC, WORM_PARAMETERS.feedMinC.value, WORM_PARAMETERS.feedOptimumC.value, WORM_PARAMETERS.feedMaxC.value);

/** Why a bin should not be fed at all today, or null. */
export function holdReason({ bin, log, resting }: Pick<FeedScene, 'bin' | 'log' | 'resting'>): HoldReason | null {
  if (resting) return 'resting';
  if (stillSmells(log)) return 'smell';
  if (bin.bedPeakTempC >= P.holdHotC.value) return 'hot';
  if (bin.bedTempC < P.holdColdC.value) return 'cold';
  if (bin.ph < P.holdPh.value) return 'sour';
  if (bin.airFilledPorosity < P.holdPorosity.value) return 'airless';
  return bin.foodInHandDays > P.holdFoodDays.value ? 'food-in-hand' : null;
}

/**
 * The largest feeding of today, with the bedding that belongs to it and the zones whose turn it is.
 *
 * A week's ration by EQ12, less what the last week brought, in layers thin enough for air, made smaller until trouble
 * within 14 days is at most as likely as one in ten.
 *
 * @shape scene -> advice
 * @returns Masses, [kg]; mass 0 with a reason when the bin is to be left alone
 * @source feed-advice-default, osu-area-load (EQ12), science-table-6
 */
export function feedAdvice(scene: FeedScene): FeedAdvice {
  const hold = holdReason(scene);
  if (hold) return held(scene, hold);
  const lastWeekKg = scene.log.fed.filter((fed) => scene.log.day - fed.day < P.rationDays.value).reduce((sum, fed) => sum + fed.massKg, 0);
  const rationKg = weeklyRationKg(scene);
  const wantedKg = rationKg - lastWeekKg;
  if (wantedKg < Math.max(P.leastKg.value, rationKg * P.leastRationFrac.value)) return held(scene, fullReason(scene, lastWeekKg));
  const largest = feedingPlan(scene, wantedKg);
  const { plan, trouble, limit } = largestWithout(scene, largest, largest.massKg < roundKg(wantedKg) ? 'room' : 'ration');
  if (plan.massKg < P.leastKg.value) return held(scene, limit === 'airless' ? 'airless' : 'food-in-hand');
  return advised(scene, plan, limit, trouble.either);
}

interface Found {
  readonly plan: FeedingPlan;
  readonly trouble: Trouble;
  readonly limit: FeedLimit;
}

const isCalm = ({ either }: Trouble): boolean => either <= P.troubleProbability.value + 1e-9;
const worseOf = ({ airless, overfed }: Trouble): FeedLimit => (airless >= overfed ? 'airless' : 'overfed');

/** Halves its way to the largest feeding that few members bear, then goes down until all do. */
function largestWithout(scene: FeedScene, largest: FeedingPlan, fullLimit: FeedLimit): Found {
  let limit = fullLimit;
  const few = (massKg: number): boolean => {
    const trouble = scene.troubleAfter(feedingPlan(scene, massKg), 'few');
    if (!isCalm(trouble)) limit = worseOf(trouble);
    return isCalm(trouble);
  };
  let massKg = largest.massKg;
  if (!few(massKg)) {
    const stepKg = Math.max(ROUND_KG, massKg / SEARCH_STEPS);
    // Where even a little is too much, trouble comes whatever is fed.
    let [bearsKg, tooMuchKg] = few(P.leastKg.value) ? [P.leastKg.value, massKg] : [0, 0];
    while (tooMuchKg - bearsKg > stepKg * 1.001) {
      const middleKg = (bearsKg + tooMuchKg) / 2;
      if (few(middleKg)) bearsKg = middleKg;
      else tooMuchKg = middleKg;
    }
    massKg = bearsKg;
  }
  for (;;) {
    const plan = feedingPlan(scene, massKg);
    if (plan.massKg < P.leastKg.value) return { plan, limit, trouble: NONE };
    const trouble = scene.troubleAfter(plan, 'all');
    if (isCalm(trouble)) return { plan, trouble, limit };
    limit = worseOf(trouble);
    massKg = Math.min(plan.massKg - ROUND_KG, plan.massKg * STEP_DOWN_RATIO);
  }
}

/** The search ends within so small a part of the largest feeding. */
const SEARCH_STEPS = 32;
const STEP_DOWN_RATIO = 0.8;
const NONE: Trouble = { airless: 0, overfed: 0, either: 0 };

/** Why there is no room for more: food that lies there, or a week's food given already and eaten fast. */
const fullReason = ({ bin }: FeedScene, lastWeekKg: number): HoldReason =>
  lastWeekKg > 0 && bin.foodInHandDays < P.leftoverDays.value ? 'fed-lately' : 'food-in-hand';

/** One feeding laid out: zones in turn, as many as thin layers need, never more than they have room for. */
export function feedingPlan(scene: Pick<FeedScene, 'setup' | 'bin' | 'food' | 'bedding'>, wantedKg: number): FeedingPlan {
  const zones: number[] = [];
  let roomKg = 0;
  for (const zone of zonesInTurn(scene.bin)) {
    if (roomKg >= wantedKg) break;
    const room = zoneRoomKg(scene, zone);
    if (room < P.leastKg.value) continue;
    zones.push(zone.zone);
    roomKg += room;
  }
  const massKg = roundKg(Math.min(wantedKg, roomKg));
  return { massKg, beddingKg: beddingForKg(massKg, scene), zones };
}

/** Zones by whose turn it is: emptiest first, then longest since fed. */
export function zonesInTurn(bin: BinDay): readonly ZoneDay[] {
  const nearlyGone = (zone: ZoneDay): number =>
    zone.foodLeftKgDb < NEARLY_GONE_KG || zone.watchedFedDay === null ? 0 : zone.watchedLabileFrac;
  return [...bin.zones].sort((a, b) => nearlyGone(a) - nearlyGone(b) || (a.lastFedDay ?? -1) - (b.lastFedDay ?? -1) || a.zone - b.zone);
}

const NEARLY_GONE_KG = 0.02;

/** A thin fresh layer, less what this week already brought; old tough bits below let air through and do not count. */
function zoneRoomKg({ setup, bin }: Pick<FeedScene, 'setup' | 'bin'>, zone: ZoneDay): number {
  const layerM = bin.bedTempC >= P.warmC.value ? P.layerWarmM.value : P.layerM.value;
  const fedThisWeekKg = zone.lastFedDay !== null && bin.day - zone.lastFedDay < P.rationDays.value ? zone.lastFedKg : 0;
  return Math.max(0, layerM * (setup.areaM2 / setup.zones) * P.layerKgM3.value - fedThisWeekKg);
}

/**
 * Dry bedding that brings food to a moisture of at most 80 % and a C:N of at least 20.
 *
 * @shape mass -> mass
 * @returns Mass, [kg as it is]; 0 where the food needs none, or where no amount of this bedding would help
 * @source cornell-moisture, cornell-cn
 */
export function beddingForKg(foodKg: number, scene: Pick<FeedScene, 'food' | 'bedding'> = {}): number {
  if (foodKg <= 0) return 0;
  const there = [{ massKg: foodKg, facts: scene.food ?? materialOf({ material: 'food_scraps_veg' }) }];
  const bedding = scene.bedding ?? materialOf({ material: 'cardboard_corrugated' });
  const forMoisture = massForMoisture(there, bedding, P.moistureFracWb.value);
  const forCarbon = massForCn(there, bedding, P.cnLow.value);
  const needed = [forMoisture, forCarbon].flatMap((result) => (result.status === 'ok' ? result.massesKg : []));
  return roundUpKg(Math.max(0, ...needed));
}

const ROUND_KG = 0.05;
const roundUpKg = (massKg: number): number => Number((Math.ceil(massKg / ROUND_KG - 1e-9) * ROUND_KG).toFixed(2));
const roundKg = (massKg: number): number => Number((Math.floor(massKg / ROUND_KG + 1e-9) * ROUND_KG).toFixed(2));

function advised(scene: FeedScene, plan: FeedingPlan, limit: FeedLimit, troubleProbability: number): FeedAdvice {
  // More than brings trouble is no honest upper end, however wide the rate's own spread.
  const isSafe = limit === 'ration';
  return {
    massKg: plan.massKg,
    lowKg: roundKg(plan.massKg * (1 - P.spreadRatio.value)),
    highKg: isSafe ? roundKg(plan.massKg * (1 + P.spreadRatio.value)) : plan.massKg,
    zones: plan.zones,
    beddingKg: plan.beddingKg,
    hold: null,
    limit,
    troubleProbability,
    estimateValid: estimateValid(scene.log),
    how: 'weighed',
  };
}

function held(scene: FeedScene, hold: HoldReason): FeedAdvice {
  return {
    ...{ massKg: 0, lowKg: 0, highKg: 0, zones: [], beddingKg: 0, hold, limit: null, troubleProbability: null, how: 'weighed' },
    estimateValid: estimateValid(scene.log),
  };
}

/** Soldier-fly larvae outeat worms, so for weeks after they were seen no estimate of food left is worth much. */
const LARVAE_COUNT_DAYS = 28;
const estimateValid = (log: LogFacts): boolean => log.soldierFliesDay === null || log.day - log.soldierFliesDay > LARVAE_COUNT_DAYS;
