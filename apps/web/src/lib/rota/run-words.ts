import type { Answer } from '../api/calls.ts';
import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';

export type Run = Answer<'readRotaRun'>;
type ShiftRef = Run['proposals'][number]['shift'];

/** Where and when, on one line. */
export const shiftWords = (shift: ShiftRef, f: Format): string =>
  `${f.shortWeekday(shift.localDate)} ${f.date(shift.localDate)}, ${f.timeSpan(shift.localTime, shift.minutes)}, ${shift.siteName}`;

/** Why this person: the reasons, how many others there are, and their count of places. */
export function whyWords(one: Run['proposals'][number]): string {
  const w = words.rota;
  const reasons = one.why.map((code) => w.why[code]);
  return [...reasons, w.others(one.others), w.held(one.heldBefore, one.heldAfter, one.wish)].filter((part) => part !== '').join('; ');
}

type Blocked = Run['gaps'][number]['people'][number];

/** What keeps one person from a gap: each rule, with the shifts that stand in the way. */
export function hindranceWords({ person, hindrances }: Blocked, f: Format): string {
  const w = words.rota;
  const one = ({ rule, shifts, proposed }: Blocked['hindrances'][number]): string => {
    const there = shifts.map((shift) => shiftWords(shift, f)).join('; ');
    return there === '' ? w.rules[rule] : w.inTheWay(w.rules[rule], proposed ? w.onlyProposed(there) : there);
  };
  return w.each(person.name, hindrances.map(one).join(', '));
}
