import type { RotaPerson, RotaShift, RotaSpec } from '@middenry/domain';

/** Monday of the week that every made-up rota starts in. */
export const MONDAY = '2027-05-03';

export const personOf = (id: string, rest: Partial<RotaPerson> = {}): RotaPerson => ({
  id,
  siteIds: ['orchard'],
  adult: true,
  cleared: true,
  skills: [],
  wish: 1,
  caps: { period: null, week: null, day: null },
  weekly: [],
  away: [],
  declined: [],
  marks: {},
  ...rest,
});

export interface ShiftWish {
  /** Days after that Monday. */
  readonly day?: number;
  readonly fromMinute?: number;
  readonly minutes?: number;
}

/** A shift by day and time; the clock of the made-up site is UTC. */
export function shiftOf(id: string, { day = 0, fromMinute = 540, minutes = 60, ...rest }: ShiftWish & Partial<RotaShift> = {}): RotaShift {
  const date = new Date(`${MONDAY}T00:00:00Z`);
  date.setUTCDate(date.getUTCDate() + day);
  const startsAtMs = date.getTime() + fromMinute * 60_000;
  return {
    id,
    siteId: 'orchard',
    urgency: 1,
    startsAtMs,
    endsAtMs: startsAtMs + minutes * 60_000,
    localDate: date.toISOString().slice(0, 10),
    fromMinute,
    toMinute: fromMinute + minutes,
    places: [{ count: 1, skills: [] }],
    adultRule: { leastAdults: 2, pupilsPerAdult: 8 },
    ...rest,
  };
}

export const rotaOf = (people: readonly RotaPerson[], shifts: readonly RotaShift[], rest: Partial<RotaSpec> = {}): RotaSpec => ({
  people,
  shifts,
  signUps: [],
  earlier: [],
  travelMinutes: 0,
  ...rest,
});
