import type { Ledger, Ledgers } from './outcome.ts';
import type { Scenario } from './scenario.ts';
import { liveKg, speciesOf } from './start.ts';
import { type BinState, LEDGER_NAMES, type LedgerColumn, type LedgerName } from './state.ts';
import { SPECIES_FACTS, WORM_PARAMETERS } from './worms.ts';

/** What one member holds of carbon, nitrogen or water, worms and cocoons included (their water is not counted). */
export function storedKg(state: BinState, m: number, name: LedgerName, scenario: Scenario): number {
  const { bed: b, zone: z, members, zones } = state;
  const live = name === 'water' ? 0 : liveKg(state, m, SPECIES_FACTS[speciesOf(scenario.bin.worms)]);
  const column = name === 'water' ? z.waterKg : name === 'carbon' ? z.carbonKg : z.nitrogenKg;
  let kg = 0;
  for (let at = m; at < members * zones; at += members) kg += column[at]!;
  if (name === 'water') return kg + b.bedWaterKg[m]!;
  if (name === 'carbon') return kg + b.beddingCarbonKg[m]! + b.castingsCarbonKg[m]! + live * WORM_PARAMETERS.carbonFracOfLive.value;
  return kg + b.beddingNitrogenKg[m]! + b.castingsNitrogenKg[m]! + live * WORM_PARAMETERS.nitrogenFracOfLive.value;
}

const column = (
  state: BinState,
  name: LedgerName,
  side: 'In' | 'Gas' | 'Drained' | 'Harvested' | 'Removed' | 'Unaccounted',
): Float64Array => state.bed[`${name}${side}Kg` as LedgerColumn];

interface Gap {
  readonly gap: number;
  readonly ledger: LedgerName;
  readonly member: number;
}

/** Below a milligram a share of what came in says nothing. */
const LEAST_IN_KG = 1e-6;

/** Largest relative gap between what came in and what is there or gone, over members and ledgers. */
export function worstGap(state: BinState, scenario: Scenario): Gap {
  let worst: Gap = { gap: 0, ledger: 'carbon', member: 0 };
  for (const ledger of LEDGER_NAMES) {
    const came = column(state, ledger, 'In');
    const gas = column(state, ledger, 'Gas');
    const drained = column(state, ledger, 'Drained');
    const harvested = column(state, ledger, 'Harvested');
    const removed = column(state, ledger, 'Removed');
    for (let m = 0; m < state.members; m++) {
      const left = came[m]! - gas[m]! - drained[m]! - harvested[m]! - removed[m]!;
      const gap = Math.abs(left - storedKg(state, m, ledger, scenario)) / Math.max(came[m]!, LEAST_IN_KG);
      // A gap that is not a number must fail too.
      if (!(gap <= worst.gap)) worst = { gap, ledger, member: m };
    }
  }
  return worst;
}

const TOLERANCE = 1e-9;

/** Stops the run when a balance is broken. @throws {Error} naming the ledger */
export function assertClosed(state: BinState, scenario: Scenario, day: number): void {
  const { gap, ledger, member } = worstGap(state, scenario);
  if (!(gap <= TOLERANCE)) throw new Error(`Cannot close the ${ledger} ledger on day ${day} in member ${member}: relative gap is ${gap}`);
}

/** Weighted means over members, so that they add up. */
export function ledgersOfState(state: BinState, scenario: Scenario): Ledgers {
  const mean = (of: (m: number) => number): number => {
    let sum = 0;
    let weights = 0;
    for (let m = 0; m < state.members; m++) {
      sum += state.bed.weight[m]! * of(m);
      weights += state.bed.weight[m]!;
    }
    return sum / weights;
  };
  const ledger = (name: LedgerName): Ledger => ({
    inKg: mean((m) => column(state, name, 'In')[m]!),
    storedKg: mean((m) => storedKg(state, m, name, scenario)),
    gasKg: mean((m) => column(state, name, 'Gas')[m]!),
    drainedKg: mean((m) => column(state, name, 'Drained')[m]!),
    harvestedKg: mean((m) => column(state, name, 'Harvested')[m]!),
    removedKg: mean((m) => column(state, name, 'Removed')[m]!),
    unaccountedKg: mean((m) => column(state, name, 'Unaccounted')[m]!),
  });
  return { carbon: ledger('carbon'), nitrogen: ledger('nitrogen'), water: ledger('water') };
}
