import type { AdultRule, RotaPerson, RotaShift, RotaSpec } from '../src/rota/types.ts';

/** A printed staffing problem as a rota, with the optimum printed beside it. */
export interface RotaExample {
  /** Heading of shared/sources.md. */
  readonly source: string;
  readonly spec: RotaSpec;
  readonly known: { readonly part: 'dislike'; readonly value: number; readonly printed: string };
}

const adultRule: AdultRule = { leastAdults: 1, pupilsPerAdult: 1 };
const msPerHour = 3_600_000;

const shiftAt = (id: string, day: number, startHour: number, hours: number): RotaShift => {
  const startsAtMs = Date.UTC(2027, 4, 3 + day, startHour);
  return {
    id,
    siteId: 'site',
    urgency: 1,
    startsAtMs,
    endsAtMs: startsAtMs + hours * msPerHour,
    localDate: new Date(startsAtMs).toISOString().slice(0, 10),
    fromMinute: startHour * 60,
    toMinute: (startHour + hours) * 60,
    places: [{ count: 1, skills: [] }],
    adultRule,
  };
};

const personWith = (id: string, rest: Pick<RotaPerson, 'wish' | 'caps' | 'marks'>): RotaPerson => ({
  id,
  siteIds: ['site'],
  adult: true,
  cleared: true,
  skills: [],
  weekly: [],
  away: [],
  declined: [],
  ...rest,
});

const specOf = (people: readonly RotaPerson[], shifts: readonly RotaShift[]): RotaSpec => ({
  people,
  shifts,
  signUps: [],
  earlier: [],
  travelMinutes: 0,
});

const COSTS = [
  [90, 80, 75, 70],
  [35, 85, 55, 65],
  [125, 95, 90, 95],
  [45, 110, 95, 115],
  [50, 100, 90, 100],
];

/** Five workers, four tasks, each worker at most one task: costs as marks. */
export const assignmentExample: RotaExample = {
  source: 'assignment-example',
  spec: specOf(
    COSTS.map((row, worker) =>
      personWith(`worker ${worker}`, {
        wish: 1,
        caps: { period: 1, week: null, day: null },
        marks: Object.fromEntries(row.map((cost, task) => [`task ${task}`, cost])),
      }),
    ),
    [0, 1, 2, 3].map((task) => shiftAt(`task ${task}`, task, 8, 8)),
  ),
  known: { part: 'dislike', value: 265, printed: 'Total cost = 265.0' },
};

/** By nurse and day, the shift asked for: 0, 1, 2, or none. */
const ASKED = [
  [2, null, null, null, 2, 1, 2],
  [null, null, 1, 1, 0, null, 2],
  [1, 1, null, 0, null, 1, null],
  [2, null, 0, 1, null, 0, null],
  [null, 2, 1, null, 0, 1, null],
];

/** Five nurses, seven days of three shifts, one shift a day at most, four or five each; as many of 20 requests as can be met. */
export const requestsExample: RotaExample = {
  source: 'shift-requests-example',
  spec: specOf(
    ASKED.map((days, nurse) =>
      personWith(`nurse ${nurse}`, {
        wish: 4,
        caps: { period: 5, week: null, day: 1 },
        marks: Object.fromEntries(days.flatMap((asked, day) => [0, 1, 2].map((shift) => [`${day} ${shift}`, shift === asked ? 0 : 1]))),
      }),
    ),
    [0, 1, 2, 3, 4, 5, 6].flatMap((day) => [0, 1, 2].map((shift) => shiftAt(`${day} ${shift}`, day, shift * 8, 8))),
  ),
  // 21 places are filled, so 13 requests met leave 8 places that nobody asked for.
  known: { part: 'dislike', value: 21 - 13, printed: 'Number of shift requests met = 13 (out of 20)' },
};

export const ROTA_EXAMPLES: readonly RotaExample[] = [assignmentExample, requestsExample];
