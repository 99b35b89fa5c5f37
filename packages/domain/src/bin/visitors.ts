import { parameter } from './parameter.ts';

/** Model.md 1.8: soldier-fly larvae eat faster than worms; harmless, but they spoil every estimate of feeding. */
export const VISITOR_PARAMETERS = {
  larvaeEatPerDay: parameter(0.12, '1/d', 'estimate', 'common practice: a bin of larvae shrinks to about a quarter of what went in'),
  larvaeStayDays: parameter(21, 'd', 'estimate', 'none: a brood leaves within three weeks'),
} as const;

/** How much faster labile food goes on a day, while larvae were seen lately. */
export function larvaeRatePerDay(day: number, larvaeDay: number): number {
  if (larvaeDay < 0 || day < larvaeDay || day - larvaeDay > VISITOR_PARAMETERS.larvaeStayDays.value) return 0;
  return VISITOR_PARAMETERS.larvaeEatPerDay.value;
}
