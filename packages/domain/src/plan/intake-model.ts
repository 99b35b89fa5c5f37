import { decayedFrac } from '../bin/decay.ts';
import { OXYGEN_PARAMETERS } from '../bin/oxygen.ts';
import { type LinearModel, ModelBuilder, type Term } from '../rota/linear-model.ts';
import { GRAMS_PER_KG } from '../units/mass.ts';
import { DAYS_PER_WEEK } from '../units/time.ts';
import type { IntakeAsk, ScrapFacts } from './intake-types.ts';

/**
 * Oxygen that a kilogram of something asks for in its first week.
 *
 * 1.4 (1 - w) OM (f (1 - exp(-7 k1)) + (1 - f)(1 - exp(-7 k2)))
 *
 * @shape facts -> scalar
 * @returns Demand, [g O2 per kg wet]; at 20 C with worms, as the rates of the materials table
 * @source haug-1993, decay-table-7b
 */
export function firstWeekOxygenGPerKg(facts: ScrapFacts): number {
  const { moistureFracWb, organicFracDb, labileFrac, labileRatePerDay, slowRatePerDay } = facts;
  const goneFrac =
    labileFrac * decayedFrac(labileRatePerDay, DAYS_PER_WEEK) + (1 - labileFrac) * decayedFrac(slowRatePerDay, DAYS_PER_WEEK);
  return OXYGEN_PARAMETERS.oxygenPerSolids.value * (1 - moistureFracWb) * organicFracDb * goneFrac * GRAMS_PER_KG;
}

/** Columns of the intake plan by what they stand for. */
export interface IntakeModel {
  readonly builder: ModelBuilder;
  /** Kilograms of a stream, by bin and stream. */
  readonly scraps: readonly (readonly number[])[];
  /** Kilograms of a bedding, by bin and bedding. */
  readonly bedding: readonly (readonly number[])[];
  /** Kilograms of a bedding beyond the stock; fixed at 0 unless `canGetMore`. */
  readonly missing: readonly number[];
  /** Largest fill of any bin, as a share of its advice. */
  readonly fullest: number;
}

export interface IntakeModelSettings {
  /** Room of each bin by now [g O2 in the first week]. */
  readonly roomsG: readonly number[];
  readonly canGetMore: boolean;
}

/**
 * The linear programme: streams x bins in units of first-week oxygen demand, within every bin's room, the streams on offer and the
 * bedding in stock, each bin's mix no wetter and no richer than asked.
 */
export function intakeModel(ask: IntakeAsk, { roomsG, canGetMore }: IntakeModelSettings): IntakeModel {
  const builder = new ModelBuilder();
  const positive = (upper: number): number => builder.column(0, upper, false);
  const more = canGetMore ? Number.POSITIVE_INFINITY : 0;
  const scraps = ask.bins.map(() => ask.streams.map(({ massKg }) => positive(massKg)));
  const bedding = ask.bins.map(() => ask.bedding.map(() => positive(Number.POSITIVE_INFINITY)));
  const missing = ask.bedding.map(() => positive(more));
  const fullest = positive(1);
  for (const [stream, { massKg }] of ask.streams.entries()) {
    const everywhere = scraps.map((row): Term => [row[stream] ?? 0, 1]);
    builder.atMost(everywhere, massKg);
  }
  ask.bedding.forEach(({ massKg }, kind) => {
    builder.atMost([...bedding.map((row): Term => [row[kind] ?? 0, 1]), [missing[kind] ?? 0, -1]], massKg);
  });
  ask.bins.forEach((_, bin) => {
    const foodTerms = ask.streams.map(({ facts }, stream): Term => [scraps[bin]?.[stream] ?? 0, firstWeekOxygenGPerKg(facts)]);
    builder.atMost([...foodTerms, [fullest, -(roomsG[bin] ?? 0)]], 0);
    addMixRows(ask, builder, [...(scraps[bin] ?? []), ...(bedding[bin] ?? [])]);
  });
  return { builder, scraps, bedding, missing, fullest };
}

/** sum(m (w - wMax)) <= 0 and sum(m (1 - w)(C - low N)) >= 0 (cornell-moisture, cornell-cn). */
function addMixRows({ streams, bedding, mix }: IntakeAsk, builder: ModelBuilder, columns: readonly number[]): void {
  const facts = [...streams, ...bedding].map((part) => part.facts);
  const terms = (excess: (of: ScrapFacts) => number): Term[] => facts.map((of, index): Term => [columns[index] ?? 0, excess(of)]);
  builder.atMost(
    terms((of) => of.moistureFracWb - mix.moistureFracWb),
    0,
  );
  builder.atLeast(
    terms((of) => (1 - of.moistureFracWb) * (of.carbonFracDb - mix.cnLow * of.nitrogenFracDb)),
    0,
  );
}

/** One stage of the programme as plain data. */
export function stageOf({ columns, rows }: ModelBuilder, terms: readonly Term[]): LinearModel {
  const cost = columns.map(() => 0);
  for (const [column, value] of terms) cost[column] = (cost[column] ?? 0) + value;
  return { columns: [...columns], rows: [...rows], cost, limits: { nodes: null, seconds: null, gap: 0 } };
}
