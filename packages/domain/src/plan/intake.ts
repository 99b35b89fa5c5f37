import type { Solver, Term } from '../rota/linear-model.ts';
import { FEED_PARAMETERS } from './feed-parameters.ts';
import { firstWeekOxygenGPerKg, type IntakeModel, intakeModel, stageOf } from './intake-model.ts';
import type { IntakeAsk, IntakeMix, IntakePlan, LeftOver, PlannedFeeding, PlannedPart, TroubleAfterFeeding } from './intake-types.ts';

/** The mix of the feed advice: moisture at most 80 %, C:N at least 20. */
export const USUAL_MIX: IntakeMix = { moistureFracWb: FEED_PARAMETERS.moistureFracWb.value, cnLow: FEED_PARAMETERS.cnLow.value };

/** Less than a gram is the solver's rounding, not a portion. */
const LEAST_KG = 0.001;
/** Room that a stage leaves for the next one's rounding [kg, or share of a fill]; ten times the solver's own tolerance. */
const SLACK = 1e-6;
const MOST_ROUNDS = 6;
const HALVINGS = 7;

/**
 * Shares scraps on offer among bins: as much as they can take, spread evenly, with the least bedding; then each bin is forecast and
 * scaled back where trouble is likelier than one in ten, and what that frees goes to the others.
 *
 * @shape ask, solver, forecast -> plan
 * @returns Feedings by bin [kg]; what is left over and why; bedding missing
 * @throws {RangeError} when a mass is negative
 * @source none: linear programme, textbook method; figures are the feed advice's
 */
export async function planIntake(ask: IntakeAsk, solver: Solver, troubleAfter: TroubleAfterFeeding | null = null): Promise<IntakePlan> {
  checkMasses(ask);
  const perKgG = firstWeekOxygenGPerKg(ask.reference);
  const adviceG = ask.bins.map(({ adviceKg }) => adviceKg * perKgG);
  let roomsG = adviceG;
  let feedings: readonly PlannedFeeding[] = [];
  let rounds = 0;
  for (; rounds < MOST_ROUNDS; rounds += 1) {
    const settings = { roomsG, canGetMore: false };
    feedings = feedingsOf(ask, await solveIntake(intakeModel(ask, settings), solver), adviceG);
    if (troubleAfter === null) break;
    const scales = await eachOf(feedings, (feeding) => safeScale(feeding, troubleAfter));
    if (scales.every((scale) => scale === 1)) break;
    roomsG = feedings.map(({ fillFrac }, bin) =>
      (scales[bin] ?? 1) < 1 ? fillFrac * (adviceG[bin] ?? 0) * (scales[bin] ?? 1) : (roomsG[bin] ?? 0),
    );
    // The last round shares nothing anew: what is too much simply stays.
    if (rounds === MOST_ROUNDS - 1) feedings = feedings.map((feeding, bin) => scaled(feeding, scales[bin] ?? 1));
  }
  const { couldPlace, missing } = await withMoreBedding(ask, roomsG, solver);
  return {
    feedings: await eachOf(feedings, async (feeding) => ({
      ...feeding,
      troubleProbability: troubleAfter && partsKg(feeding.scraps) > 0 ? await troubleAfter(feeding) : null,
    })),
    leftOver: leftOverOf(ask, feedings, couldPlace),
    beddingMissing: missing,
    rounds,
  };
}

/** One after another, since the forecasts of all bins wait for one thread anyway. */
async function eachOf<T, U>(items: readonly T[], make: (item: T) => Promise<U>): Promise<U[]> {
  const made: U[] = [];
  for (const item of items) made.push(await make(item));
  return made;
}

interface Stage {
  readonly terms: readonly Term[];
  /** Kept by the stages after it. */
  readonly keep: (reached: number) => void;
}

/** Stage after stage: most scraps, the fullest bin least full, least bedding. */
async function solveIntake({ builder, scraps, bedding, missing, fullest }: IntakeModel, solver: Solver): Promise<Solved> {
  const all: Term[] = scraps.flat().map((column): Term => [column, 1]);
  const extra = missing.filter((column) => builder.columns[column]?.upper !== 0).map((column): Term => [column, 1]);
  const atMost = (terms: readonly Term[]) => (reached: number) => builder.atMost(terms, reached + SLACK);
  const stages: readonly Stage[] = [
    { terms: all.map(([column, value]): Term => [column, -value]), keep: (reached) => builder.atLeast(all, -reached - SLACK) },
    { terms: extra, keep: atMost(extra) },
    { terms: [[fullest, 1]], keep: atMost([[fullest, 1]]) },
    { terms: bedding.flat().map((column): Term => [column, 1]), keep: () => undefined },
  ];
  let values: readonly number[] = builder.columns.map(() => 0);
  for (const { terms, keep } of stages) {
    if (terms.length === 0) continue;
    const answer = await solver(stageOf(builder, terms));
    if (answer.status !== 'optimal') throw new Error(`Cannot plan the intake as a plan must be found: the solver said ${answer.status}`);
    values = answer.values;
    keep(answer.objective);
  }
  const read = (table: readonly (readonly number[])[]) => table.map((row) => row.map((column) => Math.max(0, values[column] ?? 0)));
  return { scrapsKg: read(scraps), beddingKg: read(bedding), missingKg: missing.map((column) => Math.max(0, values[column] ?? 0)) };
}

interface Solved {
  readonly scrapsKg: readonly (readonly number[])[];
  readonly beddingKg: readonly (readonly number[])[];
  readonly missingKg: readonly number[];
}

const partsOf = (items: readonly { readonly id: string }[], massesKg: readonly number[], leastKg: number): PlannedPart[] =>
  items.flatMap(({ id }, index) => ((massesKg[index] ?? 0) < leastKg ? [] : [{ id, massKg: massesKg[index] ?? 0 }]));

const partsKg = (parts: readonly PlannedPart[]): number => parts.reduce((sum, { massKg }) => sum + massKg, 0);

function feedingsOf(ask: IntakeAsk, { scrapsKg, beddingKg }: Solved, adviceG: readonly number[]): PlannedFeeding[] {
  return ask.bins.map(({ id }, bin) => {
    const scraps = partsOf(ask.streams, scrapsKg[bin] ?? [], LEAST_KG);
    const demandG = ask.streams.reduce((sum, { id: stream, facts }) => {
      const part = scraps.find((one) => one.id === stream);
      return sum + (part?.massKg ?? 0) * firstWeekOxygenGPerKg(facts);
    }, 0);
    const roomG = adviceG[bin] ?? 0;
    return {
      binId: id,
      scraps,
      bedding: scraps.length === 0 ? [] : partsOf(ask.bedding, beddingKg[bin] ?? [], SLACK),
      fillFrac: roomG > 0 ? demandG / roomG : 0,
      troubleProbability: null,
    };
  });
}

/**
 * The largest share of a feeding that is safe enough: the whole, or found by halving, where less food is never riskier. What nobody
 * could forecast stays whole, since it is within the bin's advice; what is known to be risky is only as much as is known to be safe.
 */
async function safeScale(feeding: PlannedFeeding, troubleAfter: TroubleAfterFeeding): Promise<number> {
  const limit = FEED_PARAMETERS.troubleProbability.value;
  if (partsKg(feeding.scraps) === 0 || ((await troubleAfter(feeding)) ?? 0) <= limit) return 1;
  let [safe, risky] = [0, 1];
  for (let step = 0; step < HALVINGS; step += 1) {
    const middle = (safe + risky) / 2;
    const trouble = await troubleAfter(scaled(feeding, middle));
    if (trouble === null) break;
    if (trouble <= limit) safe = middle;
    else risky = middle;
  }
  return safe;
}

function scaled(feeding: PlannedFeeding, ratio: number): PlannedFeeding {
  const smaller = (parts: readonly PlannedPart[]): PlannedPart[] =>
    parts.flatMap(({ id, massKg }) => (massKg * ratio < SLACK ? [] : [{ id, massKg: massKg * ratio }]));
  return { ...feeding, scraps: smaller(feeding.scraps), bedding: smaller(feeding.bedding), fillFrac: feeding.fillFrac * ratio };
}

/** What would go in with all the bedding one could wish for, and how much of which is missing for it. */
async function withMoreBedding(
  ask: IntakeAsk,
  roomsG: readonly number[],
  solver: Solver,
): Promise<{ couldPlace: readonly number[]; missing: readonly PlannedPart[] }> {
  const solved = await solveIntake(intakeModel(ask, { roomsG, canGetMore: true }), solver);
  return {
    couldPlace: ask.streams.map((_, stream) => solved.scrapsKg.reduce((sum, row) => sum + (row[stream] ?? 0), 0)),
    missing: partsOf(ask.bedding, solved.missingKg, LEAST_KG),
  };
}

function leftOverOf(ask: IntakeAsk, feedings: readonly PlannedFeeding[], couldPlace: readonly number[]): LeftOver[] {
  return ask.streams.flatMap(({ id, massKg }, stream) => {
    const placedKg = feedings.reduce((sum, { scraps }) => sum + partsKg(scraps.filter((part) => part.id === id)), 0);
    const left = massKg - placedKg;
    if (left < LEAST_KG) return [];
    const forBeddingKg = Math.min(left, Math.max(0, (couldPlace[stream] ?? 0) - placedKg));
    return [{ streamId: id, massKg: left, forBeddingKg, forRoomKg: left - forBeddingKg }];
  });
}

function checkMasses({ streams, bins, bedding }: IntakeAsk): void {
  const masses = [...streams, ...bedding].map(({ massKg }) => massKg).concat(bins.map(({ adviceKg }) => adviceKg));
  for (const massKg of masses)
    if (!(massKg >= 0 && Number.isFinite(massKg)))
      throw new RangeError(`Cannot plan the intake as every mass must be zero or more: current value is ${massKg}`);
}
