import type { ClimateFactors } from './factors.ts';
import type { ThreePoint } from './three-point.ts';

/** Climate gases, [g CO2e], whole numbers. */
export interface ClimateFigure {
  /** What a landfill would have given off. */
  readonly landfillAvoidedG: ThreePoint;
  /** What the bins gave off themselves. */
  readonly processG: ThreePoint;
  /** The first less the second; below 0 the bins gave off more. */
  readonly differenceG: ThreePoint;
}

const G_PER_TONNE = 1_000_000;
const G_PER_KG = 1000;
const WHOLE_PERCENT = 100;
/** Grams of gas for each gram of scraps. */
const each = (kgPerTonne: number): number => (kgPerTonne * G_PER_KG) / G_PER_TONNE;

/**
 * The climate figure of scraps: two lines and their difference.
 *
 * avoided = share of landfill * m * landfill; own = m * process
 *
 * Only the share that would have gone to a landfill counts as avoided; what the bins give off counts for all of it. Both lines stand
 * on the same mass, so the difference is no wider than the factors make it at the least and at the greatest mass.
 *
 * @shape mass, factors, percent -> figure
 * @returns Whole grams of carbon dioxide equivalent
 * @valid low <= mid <= high everywhere; percent 0 to 100
 * @throws {RangeError} outside
 * @source emission-factors: rules 1 to 4; nothing for carbon stored in soil, none for peat
 */
export function climateFigure(scrapsG: ThreePoint, { landfill, process: own }: ClimateFactors, landfillPercent: number): ClimateFigure {
  for (const { low, mid, high } of [scrapsG, landfill, own])
    if (!(low >= 0 && low <= mid && mid <= high))
      throw new RangeError(`Cannot count climate gases as low, middle and high rise from 0: current value is ${low}, ${mid}, ${high}`);
  if (!(landfillPercent >= 0 && landfillPercent <= WHOLE_PERCENT))
    throw new RangeError(`Cannot count climate gases as the share of landfill is 0 to 100 %: current value is ${landfillPercent}`);
  const share = landfillPercent / WHOLE_PERCENT;
  const lines = (at: keyof ThreePoint) => ({
    avoided: Math.round(scrapsG[at] * share * each(landfill[at])),
    own: Math.round(scrapsG[at] * each(own[at])),
  });
  const [low, mid, high] = [lines('low'), lines('mid'), lines('high')];
  const least = share * each(landfill.low) - each(own.high);
  const most = share * each(landfill.high) - each(own.low);
  return {
    landfillAvoidedG: { low: low.avoided, mid: mid.avoided, high: high.avoided },
    processG: { low: low.own, mid: mid.own, high: high.own },
    differenceG: {
      low: Math.round(Math.min(least * scrapsG.low, least * scrapsG.high)),
      mid: mid.avoided - mid.own,
      high: Math.round(Math.max(most * scrapsG.low, most * scrapsG.high)),
    },
  };
}
