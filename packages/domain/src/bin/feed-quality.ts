import { parameter } from './parameter.ts';

/** How well matter that is not fresh food feeds worms. */
export const FEED_PARAMETERS = {
  castingsQuality: parameter(0.5, 'ratio', 'estimate', 'none: eaten once already, still full of microbes'),
  mostTakenFrac: parameter(0.6, 'share', 'estimate', 'none: of the carbon that rots in a day, the most that worms can take'),
  mostNitrogenFrac: parameter(0.1, 'share', 'estimate', 'none: of all nitrogen there, the most a day'),
} as const;
