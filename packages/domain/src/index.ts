/** The one public entry of the domain. It depends on nothing: clock, chance and solver are arguments. */

export * from './bin/check-scenario.ts';
export * from './bin/outcome.ts';
export * from './bin/parameter.ts';
export * from './bin/run.ts';
export * from './bin/scenario.ts';
export * from './bin/simulate.ts';
export * from './castings/curing.ts';
export * from './castings/squeeze-moisture.ts';
export * from './castings/stock.ts';
export { encodeCheckpoint, restoreRun } from './ensemble/checkpoint.ts';
export * from './ensemble/learn.ts';
export { SEEN_KINDS, type SeenKind } from './ensemble/likelihood.ts';
export * from './ensemble/memory.ts';
export * from './fan.ts';
export * from './import/dates.ts';
export * from './import/fields.ts';
export * from './import/import-types.ts';
export * from './import/numbers.ts';
export * from './import/read-sheet.ts';
export * from './import/sheet.ts';
export * from './import/value-words.ts';
export * from './language/first-wished.ts';
export * from './language/week.ts';
export * from './materials/blend.ts';
export * from './materials/catalogue.gen.ts';
export * from './materials/material.ts';
export * from './materials/material-row.ts';
export * from './materials/measure.ts';
export * from './outlook.ts';
export * from './plan/caution-places.ts';
export * from './plan/duties.ts';
export * from './plan/duty-facts.ts';
export * from './plan/feed-advice.ts';
export * from './plan/feed-parameters.ts';
export * from './plan/intake.ts';
export * from './plan/intake-model.ts';
export * from './plan/intake-types.ts';
export * from './plan/shifts.ts';
export * from './plan/shifts-types.ts';
export * from './plan/types.ts';
export * from './rota/conflicts.ts';
export * from './rota/explain.ts';
export * from './rota/fairness.ts';
export * from './rota/linear-model.ts';
export * from './rota/rules.ts';
export * from './rota/solve.ts';
export * from './rota/types.ts';
export * from './season/castings-corrected.ts';
export * from './season/castings-expected.ts';
export * from './season/castings-marks.ts';
export * from './season/castings-out.ts';
export * from './season/castings-volume.ts';
export * from './season/changed.ts';
export * from './season/climate/factors.ts';
export * from './season/climate/figure.ts';
export * from './season/climate/scraps.ts';
export * from './season/climate/three-point.ts';
export * from './season/completeness.ts';
export * from './season/known.ts';
export * from './season/problems.ts';
export * from './season/rates.ts';
export * from './season/registry.ts';
export * from './season/season.ts';
export * from './season/season-row.ts';
export * from './season/shares.ts';
export * from './sign-up/adults.ts';
export * from './sign-up/cap.ts';
export * from './sign-up/draw.ts';
export * from './sign-up/waiting.ts';
export type { BandsBefore } from './signals/assess.ts';
export * from './signals/bands.ts';
export * from './signals/definition.ts';
export * from './signals/kind-marks.ts';
export * from './signals/registry.ts';
export * from './signals/remedy-registry.ts';
export * from './signals/types.ts';
export * from './simulate-text.ts';
export * from './trial.ts';
export * from './units/fraction.ts';
export * from './units/local-day.ts';
export * from './units/mass.ts';
export * from './units/temperature.ts';
export * from './units/time.ts';
export * from './units/volume.ts';
export * from './units/water.ts';
export * from './what-if/choice.ts';
export * from './what-if/ensemble.ts';
export * from './what-if/made-up.ts';
export type { OpenEnsemble } from './what-if/what-if.ts';
export {
  COARSE_MEMBERS,
  openEnsemble,
  WHAT_IF_QUANTITIES,
  type WhatIfAnswer,
  type WhatIfDay,
  type WhatIfQuantity,
  whatIf,
} from './what-if/what-if.ts';
