import { parameter } from '../bin/parameter.ts';

/** What castings are taken for where nobody measured; the report says how much of them that is. */
export const CASTINGS_MARKS = {
  /** The moisture to which castings of different days are brought, so that water does not count as yield. */
  standardMoistureFracWb: parameter(0.65, 'wet basis', 'common practice', 'common-practice'),
  /** Litres of castings weigh about this; 0.4 to 0.8 is found. */
  densityKgPerL: parameter(0.6, 'kg/L', 'estimate', 'common-practice'),
} as const;
