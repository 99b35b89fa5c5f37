import { GRAMS_PER_KG } from '../../units/mass.ts';
import { FEED_PARAMETERS } from '../feed-quality.ts';
import { bookLiveOut } from '../remove.ts';
import { type BinState, YOUNG_STAGES } from '../state.ts';
import { cardinalRatio, metabolicRatio } from '../temperature.ts';
import { heatDeathPerDay, incubationDays, moistureGrowthRatio, nextRootMass, WORM_PARAMETERS as P, phGrowthRatio, ramp } from '../worms.ts';
import type { StepContext } from './context.ts';

const carbonOfLive = P.carbonFracOfLive.value;
const nitrogenOfLive = P.nitrogenFracOfLive.value;

/** Growth, laying, hatching, growing up and death of every member's worms (model.md 1.4). */
export function stepWorms(context: StepContext): void {
  const { state, scratch: s } = context;
  for (let m = 0; m < state.members; m++) {
    s.tissueCarbonKg[m] = 0;
    s.burntCarbonKg[m] = 0;
    s.tissueNitrogenKg[m] = 0;
    s.deadKg[m] = 0;
    s.shrunkKg[m] = 0;
    const alive = s.wormsKg[m]! > 0;
    state.bed.foodRatio[m] = alive ? foodRatioOf(context, m) * state.bed.growthRatio[m]! : 0;
    if (alive) growAndLay(context, m, state.bed.foodRatio[m]!);
    hatch(context, m);
    if (alive) {
      growUp(context, m);
      die(context, m);
    }
  }
}

/** Food there is over food they would take: S2/(S + c D), with S the day's flow of life weighed by quality. */
function foodRatioOf({ scratch: s, days }: StepContext, m: number): number {
  const flowG = (s.flowKg[m]! * GRAMS_PER_KG) / days;
  if (flowG <= 0) return 0;
  const wantG = P.flowPerAppetite.value * s.appetiteRoot[m]! * s.growthEnvironment[m]!;
  return (s.flowQualityKg[m]! / s.flowKg[m]!) * (flowG / (flowG + wantG));
}

/** Every stage grows or shrinks, adults lay; all of it within the carbon and nitrogen that the day's rotting can give. */
function growAndLay(context: StepContext, m: number, foodRatio: number): void {
  const { state, scratch: s, species, scenario, days } = context;
  const { stageCounts, stageKgs, bed: b } = state;
  const growth = P.growthPerDay.value * s.growthEnvironment[m]! * species.growthRatio;
  const metabolic = metabolicRatio(b.bedTempC[m]!);
  const shrink = P.starvingLossPerDay.value * metabolic;
  const fullRoot = Math.cbrt(species.fullMassG);
  const laidKg = (layingPerAdult(context, m, foodRatio) * days * b.adultCount[m]! * species.cocoonMassG) / GRAMS_PER_KG;
  let grownKg = laidKg;
  for (let i = 0; i < stageCounts.length; i++) {
    const change = changeKg(stageCounts[i]![m]!, s.stageRoots[i]![m]!, foodRatio, growth, fullRoot, shrink, days);
    s.stageChangesKg[i]![m] = change;
    grownKg += Math.max(0, change);
  }
  const share = affordableShare(context, m, grownKg, P.restingCarbonPerDay.value * metabolic * Math.min(1, foodRatio / 0.3) * days);
  for (let i = 0; i < stageCounts.length; i++) {
    const change = s.stageChangesKg[i]![m]!;
    if (change < 0) s.shrunkKg[m]! -= change;
    stageKgs[i]![m]! += change < 0 ? change : change * share;
  }
  const laid = (laidKg * share * GRAMS_PER_KG) / species.cocoonMassG;
  if (scenario.bin.worms.cocoonsRemoved) bookLiveOut(state, m, laidKg * share);
  else state.cocoonCounts[0]![m]! += laid;
}

/** What a stage gains or loses in the step, [kg]. */
function changeKg(count: number, root: number, foodRatio: number, growth: number, fullRoot: number, shrink: number, days: number): number {
  if (count <= 0) return 0;
  const next = nextRootMass(root, foodRatio, growth, fullRoot, shrink, days);
  return (count * (next * next * next - root * root * root)) / GRAMS_PER_KG;
}

/** Books what growth takes and burns; returns the share of the wish that can be met. */
function affordableShare({ state, scratch: s }: StepContext, m: number, grownKg: number, restingPerKg: number): number {
  const b = state.bed;
  const tissue = grownKg * carbonOfLive;
  const burnt = tissue * (1 / P.tissueYield.value - 1) + s.wormsKg[m]! * restingPerKg;
  const most = s.flowCarbonKg[m]! * FEED_PARAMETERS.mostTakenFrac.value;
  let nitrogen = b.beddingNitrogenKg[m]! + b.castingsNitrogenKg[m]!;
  for (let at = m; at < state.members * state.zones; at += state.members) nitrogen += state.zone.nitrogenKg[at]!;
  const byCarbon = tissue + burnt > most ? most / (tissue + burnt) : 1;
  const wish = grownKg * nitrogenOfLive;
  const byNitrogen =
    wish > nitrogen * FEED_PARAMETERS.mostNitrogenFrac.value ? (nitrogen * FEED_PARAMETERS.mostNitrogenFrac.value) / wish : 1;
  const share = Math.min(byCarbon, byNitrogen);
  s.tissueCarbonKg[m] = tissue * share;
  s.burntCarbonKg[m] = burnt * byCarbon;
  s.tissueNitrogenKg[m] = wish * share;
  return share;
}

/** Cocoons per adult and day by warmth, food, surroundings and crowd. */
function layingPerAdult({ state, scratch: s, species, geometry }: StepContext, m: number, foodRatio: number): number {
  const count = state.bed.adultCount[m]!;
  if (count <= 0) return 0;
  const warm = cardinalRatio(state.bed.bedTempC[m]!, P.layMinC.value, P.layOptimumC.value, P.layMaxC.value);
  const around = moistureGrowthRatio(s.moistureFracWb[m]!) * phGrowthRatio(s.ph[m]!);
  const crowding = s.wormsKg[m]! / geometry.areaM2 / P.crowdKgPerM2.value;
  const massG = (state.bed.adultKg[m]! * GRAMS_PER_KG) / count;
  const grown = ramp(massG, species.maturityG * 0.6, species.maturityG * 1.4);
  const fed = ramp(foodRatio, P.layingFromFoodRatio.value, P.layingFullFoodRatio.value);
  return (P.cocoonsPerAdultDay.value * species.cocoonsRatio * warm * around * grown * fed) / (1 + crowding * crowding * crowding);
}

/** Cocoons move down their chain; what leaves it hatches or is lost. */
function hatch({ state, scratch: s, species, days }: StepContext, m: number): void {
  const chain = state.cocoonCounts;
  const incubation = incubationDays(state.bed.bedTempC[m]!, species);
  const moved = 1 - Math.exp((-chain.length / incubation) * days);
  let out = 0;
  for (let i = chain.length - 1; i >= 0; i--) {
    const leaving = chain[i]![m]! * moved;
    chain[i]![m]! -= leaving;
    if (i === chain.length - 1) out = leaving;
    else chain[i + 1]![m]! += leaving;
  }
  if (out <= 0) return;
  const young = out * P.hatchFrac.value * species.youngPerCocoon;
  const youngKg = (young * species.birthMassG) / GRAMS_PER_KG;
  state.stageCounts[0]![m]! += young;
  state.stageKgs[0]![m]! += youngKg;
  s.deadKg[m]! += (out * species.cocoonMassG) / GRAMS_PER_KG - youngKg;
}

/** A young stage is left by the share of its worms that have reached its mass, allowing for how they differ. */
function growUp({ state, stageMassesG, days }: StepContext, m: number): void {
  const { stageCounts, stageKgs } = state;
  for (let i = YOUNG_STAGES - 1; i >= 0; i--) {
    const count = stageCounts[i]![m]!;
    if (count <= 0) continue;
    const kg = stageKgs[i]![m]!;
    const ratio = (stageMassesG[i]! * count) / (kg * GRAMS_PER_KG);
    const r2 = ratio * ratio;
    const r8 = r2 * r2 * r2 * r2;
    const moved = 1 - Math.exp((-P.stageStepPerDay.value / (1 + r8)) * days);
    stageCounts[i]![m] = count * (1 - moved);
    stageKgs[i]![m] = kg * (1 - moved);
    stageCounts[i + 1]![m]! += count * moved;
    stageKgs[i + 1]![m]! += kg * moved;
  }
}

function deathPerDay({ state, scratch: s }: StepContext, m: number): number {
  const b = state.bed;
  // The peak is felt for about a third of the day.
  const heat = (2 * heatDeathPerDay(b.bedTempC[m]!) + heatDeathPerDay(b.bedPeakTempC[m]!)) / 3;
  const dry = P.droughtDeathPerDay.value * ramp(s.moistureFracWb[m]!, P.droughtFracWb.value, 0.45);
  const sour = P.acidDeathPerDay.value * (1 - ramp(s.ph[m]!, 4.2, 5)) + P.acidDeathPerDay.value * (1 - ramp(s.ph[m]!, 9.2, 8.8));
  const airless = P.airlessDeathPerDay.value * ramp(b.bedAirlessFrac[m]!, P.airlessRefugeFrac.value, 1);
  const starving = P.starvingDeathPerDay.value * (1 - Math.min(1, b.foodRatio[m]! / 0.3));
  return P.baseDeathPerDay.value + heat + dry + sour + airless + starving;
}

function die(context: StepContext, m: number): void {
  const { state, scratch: s, days } = context;
  const share = 1 - Math.exp(-deathPerDay(context, m) * days);
  for (let i = 0; i < state.stageCounts.length; i++) {
    s.deadKg[m]! += state.stageKgs[i]![m]! * share;
    state.stageKgs[i]![m]! *= 1 - share;
    state.stageCounts[i]![m]! *= 1 - share;
  }
}

/** Live worms of a member now, [kg]. */
export function wormsKgOf(state: BinState, m: number): number {
  let kg = 0;
  for (const column of state.stageKgs) kg += column[m]!;
  return kg;
}
