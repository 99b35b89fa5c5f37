import { type Parameter, parameter } from '../bin/parameter.ts';

/** Ages of the pupils of a class [years], as the ratios know them. */
export const AGE_BANDS = ['4-8', '9-12', '13-18'] as const;
export type AgeBand = (typeof AGE_BANDS)[number];

/** Most pupils that one adult looks after. */
export const PUPILS_PER_ADULT: Readonly<Record<AgeBand, Parameter>> = {
  '4-8': parameter(6, 'pupils', 'published', 'nspcc-ratios'),
  '9-12': parameter(8, 'pupils', 'published', 'nspcc-ratios'),
  '13-18': parameter(10, 'pupils', 'published', 'nspcc-ratios'),
};
/** Nobody is alone with pupils; a coordinator may lower it to one with a written reason. */
export const LEAST_ADULTS = parameter(2, 'adults', 'published', 'nspcc-ratios');

export const ADULT_STATES = ['no-pupils', 'confirmed', 'needs-adult'] as const;
export type AdultState = (typeof ADULT_STATES)[number];

export interface AdultScene {
  readonly groups: readonly { readonly pupils: number; readonly ageBand: AgeBand }[];
  readonly adults: readonly {
    /** Marked 18 or over. */
    readonly isAdult: boolean;
    /** By the coordinator. */
    readonly cleared: boolean;
    /** They are known not to have come. */
    readonly absent: boolean;
  }[];
  readonly leastAdults: number;
}

export interface AdultStanding {
  readonly state: AdultState;
  readonly pupils: number;
  /** Adults that so many pupils of this age ask for. */
  readonly needed: number;
  /** Adults who count. */
  readonly counted: number;
}

/**
 * Whether enough adults come for the pupils of a shift (criteria C19).
 *
 * adults >= max(least, ceil(pupils / ratio)), ratio of the youngest group
 *
 * @shape scene -> standing
 * @returns `confirmed` only where the rule holds; `no-pupils` where there is nothing to hold
 * @source nspcc-ratios
 * @deviates from it where groups of two ages come together: the youngest group's ratio stands for all
 */
export function adultStanding({ groups, adults, leastAdults }: AdultScene): AdultStanding {
  const pupils = groups.reduce((sum, group) => sum + group.pupils, 0);
  const counted = adults.filter(({ isAdult, cleared, absent }) => isAdult && cleared && !absent).length;
  if (pupils === 0) return { state: 'no-pupils', pupils, needed: 0, counted };
  const needed = Math.max(leastAdults, Math.ceil(pupils / pupilsPerAdult(groups.map(({ ageBand }) => ageBand))));
  return { state: counted >= needed ? 'confirmed' : 'needs-adult', pupils, needed, counted };
}

/** The strictest ratio among these ages; where there is no age, the strictest of all. */
export function pupilsPerAdult(ageBands: readonly AgeBand[]): number {
  const known = ageBands.length === 0 ? AGE_BANDS : ageBands;
  return Math.min(...known.map((ageBand) => PUPILS_PER_ADULT[ageBand].value));
}
