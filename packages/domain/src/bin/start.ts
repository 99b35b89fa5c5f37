import { drawMembers, startWaterRatio, stockRatio } from '../ensemble/priors.ts';
import { GRAMS_PER_KG, MILLIGRAMS_PER_KG } from '../units/mass.ts';
import { DECAY_PARAMETERS } from './decay.ts';
import { chargeOf, putBedding, putFinished } from './put.ts';
import { EXPOSURES, type Scenario, type Species, type WormStart } from './scenario.ts';
import { type BinState, stateOver, YOUNG_STAGES } from './state.ts';
import { weatherOf } from './weather.ts';
import { SPECIES_FACTS, type SpeciesFacts, WORM_PARAMETERS } from './worms.ts';

export const START_PARAMETERS = {
  adultShare: { value: 0.35, unit: 'share of count', evidence: 'estimate', source: 'none: mixed stock as sold' },
  adultMassG: { value: 0.35, unit: 'g', evidence: 'estimate', source: 'none: crowded stock as sold; well-fed adults weigh more' },
  youngMassG: { value: 0.12, unit: 'g', evidence: 'estimate', source: 'none: half grown' },
} as const;
const P = START_PARAMETERS;

export const speciesOf = (worms: WormStart): Species => worms.species ?? 'eisenia-fetida';

/** Mass at which a young worm leaves each of its stages, [g]: equal steps in cube-root mass. */
export function stageMassesG(facts: SpeciesFacts): readonly number[] {
  const from = Math.cbrt(facts.birthMassG);
  const to = Math.cbrt(facts.maturityG);
  return Array.from({ length: YOUNG_STAGES }, (_, i) => (from + ((to - from) * (i + 1)) / YOUNG_STAGES) ** 3);
}

/** The state before the first event, every member by its own belief. */
export function startOf(scenario: Scenario, members: number): BinState {
  const { bin, seed } = scenario;
  const state = stateOver(members, bin.zones);
  drawMembers(state, seed);
  state.marks.lastFedDay.fill(-1);
  for (const name of ['lastCheckDay', 'lastLoosenedDay', 'lastInoculatedDay', 'lastHarvestDay', 'larvaeDay'] as const)
    state.marks[name].fill(-1);
  state.marks.exposure[0] = EXPOSURES.indexOf(bin.exposure ?? 'indoors');
  state.zoneMarks.zoneFedDay.fill(-1);
  state.zoneMarks.watchedFedDay.fill(-1);
  const matured = startingMaturity(scenario);
  const weather = weatherOf(scenario.climate, 0);
  const charges = bin.bed.map(chargeOf);
  for (let m = 0; m < members; m++) {
    state.bed.bedTempC[m] = weather.bedTempC ?? weather.airTempC;
    state.bed.bedPeakTempC[m] = state.bed.bedTempC[m]!;
    state.bed.maturityFrac[m] = matured;
    const waterKg = bin.bedWaterKg * (bin.kind === 'vessel' ? 1 : startWaterRatio(members, m, seed));
    state.bed.bedWaterKg[m] = waterKg;
    state.bed.waterInKg[m] = waterKg;
    charges.forEach((charge, i) => {
      if (charge.isFinished) putFinished(state, m, charge, bin.bed[i]!.massKg);
      else putBedding(state, m, charge, bin.bed[i]!.massKg, null);
    });
    const counted = bin.worms.massKg === undefined;
    addStock(state, m, scenario, bin.worms, stockRatio(members, m, seed, counted || bin.kind === 'vessel'));
  }
  return state;
}

/** Manures and laboratory feeds bring their own microbes; so does a bed that starts on castings; a new bin of card has to find them. */
function startingMaturity(scenario: Scenario): number {
  const { bin } = scenario;
  if (bin.kind === 'vessel' || bin.bed.some((portion) => chargeOf(portion).isFinished)) return 1;
  return -Math.expm1(-DECAY_PARAMETERS.maturingPerDay.value * bin.ageDays);
}

/** Puts worms in, by mass or by count, and books their carbon and nitrogen. */
export function addStock(state: BinState, member: number, scenario: Scenario, worms: WormStart, ratio: number): void {
  const facts = SPECIES_FACTS[speciesOf(scenario.bin.worms)];
  const before = liveKg(state, member, facts);
  if (worms.massKg !== undefined) addByMass(state, member, facts, worms.massKg * ratio);
  else addByCount(state, member, facts, worms);
  const gainedKg = liveKg(state, member, facts) - before;
  state.bed.carbonInKg[member]! += gainedKg * WORM_PARAMETERS.carbonFracOfLive.value;
  state.bed.nitrogenInKg[member]! += gainedKg * WORM_PARAMETERS.nitrogenFracOfLive.value;
}

/** Worms and cocoons of a member, [kg]. */
export function liveKg(state: BinState, member: number, facts: SpeciesFacts): number {
  let kg = 0;
  for (const column of state.stageKgs) kg += column[member]!;
  for (const column of state.cocoonCounts) kg += (column[member]! * facts.cocoonMassG) / GRAMS_PER_KG;
  return kg;
}

const sizeOf = (facts: SpeciesFacts): number => facts.fullMassG / SPECIES_FACTS['eisenia-fetida'].fullMassG;

function addByMass(state: BinState, member: number, facts: SpeciesFacts, massKg: number): void {
  const adultG = P.adultMassG.value * sizeOf(facts);
  const youngG = P.youngMassG.value * sizeOf(facts);
  const meanG = P.adultShare.value * adultG + (1 - P.adultShare.value) * youngG;
  const count = (massKg * GRAMS_PER_KG) / meanG;
  place(state, member, facts, count * P.adultShare.value, adultG, true);
  place(state, member, facts, count * (1 - P.adultShare.value), youngG, false);
}

function addByCount(state: BinState, member: number, facts: SpeciesFacts, worms: WormStart): void {
  const adults = worms.adults ?? 0;
  const juveniles = worms.juveniles ?? 0;
  const givenG = worms.meanMassMg === undefined ? null : (worms.meanMassMg / MILLIGRAMS_PER_KG) * GRAMS_PER_KG;
  const adultG = P.adultMassG.value * sizeOf(facts);
  const youngG = P.youngMassG.value * sizeOf(facts);
  // With both kinds and one mean, their usual ratio is kept and the mean is met.
  const usualMeanG = adults + juveniles > 0 ? (adults * adultG + juveniles * youngG) / (adults + juveniles) : 1;
  const ratio = givenG === null ? 1 : givenG / usualMeanG;
  place(state, member, facts, adults, adultG * ratio, true);
  place(state, member, facts, juveniles, youngG * ratio, false);
  state.cocoonCounts.forEach((column) => {
    column[member]! += (worms.cocoons ?? 0) / state.cocoonCounts.length;
  });
}

function place(state: BinState, member: number, facts: SpeciesFacts, count: number, massG: number, adult: boolean): void {
  if (count <= 0) return;
  const limits = stageMassesG(facts);
  const young = limits.findIndex((limit) => massG < limit);
  const stage = adult ? YOUNG_STAGES : young < 0 ? YOUNG_STAGES - 1 : young;
  state.stageCounts[stage]![member]! += count;
  state.stageKgs[stage]![member]! += (count * massG) / GRAMS_PER_KG;
}
