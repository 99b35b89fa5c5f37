import type { BodyOf } from '../api/calls.ts';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';

/** Parts of a day as the API has them; a test compares the two, so that its schemas stay out of the phone's download. */
export const DAY_PARTS = [
  { part: 'morning', from: '08:00', to: '12:00' },
  { part: 'midday', from: '11:30', to: '14:00' },
  { part: 'afternoon', from: '12:00', to: '17:00' },
  { part: 'evening', from: '17:00', to: '21:00' },
] as const;
export const SKILLS = ['lifting', 'harvest', 'keys', 'guiding'] as const;
export const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7] as const;

export type When = BodyOf<'putAvailability'>;
type CanCome = NonNullable<When['weekly']>[number];

/** One time of the week as the value of a tick. */
export const tickOf = ({ weekday, from, to, liking = 'can' }: CanCome): string => `${weekday} ${from} ${to} ${liking}`;

function timeOf(tick: string): CanCome | null {
  const [, weekday, from, to, liking] = /^([1-7]) (\d\d:\d\d) (\d\d:\d\d) (glad|can|if-needed)$/.exec(tick) ?? [];
  return weekday === undefined ? null : { weekday: Number(weekday), from: from!, to: to!, liking: liking as 'can' };
}

const spanOf = (tick: string): { from: string; to: string } | null => {
  const [, from, to] = /^(\d{4}-\d\d-\d\d) (\d{4}-\d\d-\d\d)$/.exec(tick) ?? [];
  return from === undefined ? null : { from, to: to! };
};

const isThere = <T>(one: T | null): one is T => one !== null;
const text = (form: FormData, name: string): string => String(form.get(name) ?? '').trim();
const texts = (form: FormData, name: string): string[] => form.getAll(name).map(String);
const countOrNull = (typed: string): number | null => (/^\d{1,2}$/.test(typed) ? Number(typed) : null);

/** What was ticked and typed; an away time of one day needs its first day only. */
export function readWhen(form: FormData): { ok: true; body: When } | { ok: false; faults: FieldFault[] } {
  const [first, last] = [text(form, 'awayFrom'), text(form, 'awayTo')];
  const w = words.when;
  if (first === '' && last !== '') return { ok: false, faults: [{ field: 'awayFrom', text: w.needFirst }] };
  if (last !== '' && last < first) return { ok: false, faults: [{ field: 'awayTo', text: w.lastBeforeFirst }] };
  const fresh = first === '' ? [] : [{ from: first, to: last === '' ? first : last }];
  const count = countOrNull(text(form, 'wish'));
  return {
    ok: true,
    body: {
      weekly: texts(form, 'time').map(timeOf).filter(isThere),
      away: [...texts(form, 'away').map(spanOf).filter(isThere), ...fresh],
      skills: SKILLS.filter((skill) => texts(form, 'skill').includes(skill)),
      siteIds: texts(form, 'siteId'),
      wish: count === null ? null : { count, per: text(form, 'per') === 'week' ? 'week' : 'month' },
      capPerWeek: countOrNull(text(form, 'capPerWeek')),
      capPerDay: countOrNull(text(form, 'capPerDay')),
    },
  };
}
