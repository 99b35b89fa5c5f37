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

export type When = BodyOf<'putAvailability'>;
type CanCome = NonNullable<When['weekly']>[number];
/** Most liked first; where two overlap, the less liked holds. */
export const LIKINGS = ['glad', 'can', 'if-needed'] as const;

/** One time of the week as the value of a tick. */
export const tickOf = ({ weekday, from, to, liking = 'can' }: CanCome): string => `${weekday} ${from} ${to} ${liking}`;

function timeOf(tick: string): CanCome | null {
  const [, weekday, from, to, liking] = /^([1-7]) (\d\d:\d\d) (\d\d:\d\d) (glad|can|if-needed)$/.exec(tick) ?? [];
  return weekday === undefined ? null : { weekday: Number(weekday), from: from!, to: to!, liking: liking as 'can' };
}

const likingOf = ({ liking = 'can' }: CanCome): number => LIKINGS.indexOf(liking);

/** Parts of a day overlap, and a shift that begins in one may end in the next: ticked beside each other they are one time. */
export function joined(times: readonly CanCome[]): CanCome[] {
  const inOrder = times.toSorted((a, b) => a.weekday - b.weekday || a.from.localeCompare(b.from));
  const all: CanCome[] = [];
  for (const time of inOrder) {
    const last = all.at(-1);
    const meets = last !== undefined && last.weekday === time.weekday && time.from <= last.to;
    if (meets && (time.from < last.to || likingOf(last) === likingOf(time))) {
      const liking = LIKINGS[Math.max(likingOf(last), likingOf(time))]!;
      all[all.length - 1] = { ...last, to: [last.to, time.to].toSorted()[1]!, liking };
    } else all.push(time);
  }
  return all;
}

/** The parts that make up a time exactly; none where it was said in another way than by parts. */
function partsIn(time: CanCome): CanCome[] {
  const { weekday, liking = 'can' } = time;
  const parts = DAY_PARTS.filter(({ from, to }) => time.from <= from && to <= time.to).map(({ from, to }) => ({
    weekday,
    from,
    to,
    liking,
  }));
  const [whole, ...rest] = joined(parts);
  return rest.length === 0 && whole?.from === time.from && whole.to === time.to ? parts : [];
}

/** What of a weekday is there to tick, and what of it is ticked. */
export function ticksOn(weekday: number, said: readonly CanCome[]): { parts: CanCome[]; others: CanCome[]; chosen: CanCome[] } {
  const mine = said.filter((time) => time.weekday === weekday);
  const ticked = mine.flatMap(partsIn);
  const others = mine.filter((time) => partsIn(time).length === 0);
  const parts = DAY_PARTS.map(({ from, to }) => ticked.find((one) => one.from === from) ?? { weekday, from, to, liking: 'can' as const });
  return { parts, others, chosen: [...ticked, ...others] };
}

/** The liking of all that is said of a weekday; none when its times are liked differently. */
export function likingOn(weekday: number, said: readonly CanCome[]): (typeof LIKINGS)[number] | '' {
  const all = [...new Set(said.filter((time) => time.weekday === weekday).map(({ liking = 'can' }) => liking))];
  return all.length > 1 ? '' : (all[0] ?? 'can');
}

/** A tick says what was kept; what is chosen for the whole weekday goes before it. */
function asLiked(form: FormData, time: CanCome): CanCome {
  const chosen = text(form, `liking-${time.weekday}`);
  const liking = LIKINGS.find((each) => each === chosen);
  return liking === undefined ? time : { ...time, liking };
}

const spanOf = (tick: string): { from: string; to: string } | null => {
  const [, from, to] = /^(\d{4}-\d\d-\d\d) (\d{4}-\d\d-\d\d)$/.exec(tick) ?? [];
  return from === undefined ? null : { from, to: to! };
};

const isThere = <T>(one: T | null): one is T => one !== null;
const text = (form: FormData, name: string): string => String(form.get(name) ?? '').trim();
const texts = (form: FormData, name: string): string[] => form.getAll(name).map(String);
const countOrNull = (typed: string): number | null => (/^\d{1,2}$/.test(typed) ? Number(typed) : null);

/** What was ticked, for a form that is refused: of several ticks of one name, all. */
export interface Ticked {
  readonly time: readonly string[];
  readonly away: readonly string[];
  readonly skill: readonly string[];
  readonly siteId: readonly string[];
}
export const tickedIn = (form: FormData): Ticked => ({
  time: texts(form, 'time'),
  away: texts(form, 'away'),
  skill: texts(form, 'skill'),
  siteId: texts(form, 'siteId'),
});

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
      weekly: joined(
        texts(form, 'time')
          .map(timeOf)
          .filter(isThere)
          .map((time) => asLiked(form, time)),
      ),
      away: [...texts(form, 'away').map(spanOf).filter(isThere), ...fresh],
      skills: SKILLS.filter((skill) => texts(form, 'skill').includes(skill)),
      siteIds: texts(form, 'siteId'),
      wish: count === null ? null : { count, per: text(form, 'per') === 'week' ? 'week' : 'month' },
      capPerWeek: countOrNull(text(form, 'capPerWeek')),
      capPerDay: countOrNull(text(form, 'capPerDay')),
    },
  };
}
