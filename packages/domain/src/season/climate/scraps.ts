import { PRIOR_PARAMETERS as P } from '../../ensemble/priors.ts';
import type { SeasonRow } from '../season-row.ts';
import type { ThreePoint } from './three-point.ts';

export interface ClimateScraps {
  /** Scraps, whole grams: as noted, and from how little to how much that may be by the way each was measured. */
  readonly scrapsG: ThreePoint;
  /** Given as if it were food, but no food: card, leaves and the like, in whole grams. */
  readonly notScrapsG: number;
}

/**
 * Scraps that a climate figure may count. Bedding never is among them, whichever way it was logged: leaves and card would not have
 * rotted in a landfill as scraps do, and card would have been made into card again.
 *
 * @shape rows -> masses
 * @returns Masses, [g], whole numbers; a weighed one lies within 3 %, a counted one within 25 %, a guessed one within a factor of 1.6
 * @valid grams are whole and not negative
 * @source emission-factors: rule 3, only what would have gone to a landfill
 */
export function climateScraps(rows: readonly SeasonRow[], isFood: (materialId: string) => boolean): ClimateScraps {
  const given = { weighed: 0, container: 0, guessed: 0 };
  let notScrapsG = 0;
  for (const { type, how, grams, materialId } of rows) {
    if (type !== 'feeding' || how === null) continue;
    if (materialId !== undefined && materialId !== null && isFood(materialId)) given[how] += grams;
    else notScrapsG += grams;
  }
  const { weighed, container, guessed } = given;
  const off = { weighed: P.weighedError.value, container: P.containerError.value, guessed: P.guessedFactor.value };
  return {
    scrapsG: {
      low: Math.round(weighed * (1 - off.weighed) + container * (1 - off.container) + guessed / off.guessed),
      mid: weighed + container + guessed,
      high: Math.round(weighed * (1 + off.weighed) + container * (1 + off.container) + guessed * off.guessed),
    },
    notScrapsG,
  };
}
