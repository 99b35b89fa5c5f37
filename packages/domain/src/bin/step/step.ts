import { stepAge } from './age.ts';
import { stepBedAir, stepLayerAir } from './air.ts';
import { passThrough } from './castings.ts';
import type { StepContext } from './context.ts';
import { stepHeat } from './heat.ts';
import { moveMatter } from './matter.ts';
import { planRates } from './rates.ts';
import { rot } from './rot.ts';
import { survey, surveyWorms } from './survey.ts';
import { stepWater } from './water.ts';
import { stepWorms } from './worms.ts';

/** One step of all members, in the order of model.md 1. */
export function step(context: StepContext): void {
  survey(context);
  stepHeat(context);
  surveyWorms(context);
  planRates(context);
  stepBedAir(context);
  stepLayerAir(context);
  rot(context);
  stepWorms(context);
  moveMatter(context);
  passThrough(context);
  stepWater(context);
  stepAge(context);
}
