import type { Who } from '../context.ts';

/** Shown for somebody whose data was erased; their hours stay. */
export const FORMER = 'former volunteer';

/** First name and initial, all that others need to see of somebody. */
export function shortName(name: string): string {
  const words = name.trim().split(/\s+/);
  const first = words[0] ?? '';
  const last = words.length > 1 ? words.at(-1) : undefined;
  return last === undefined ? first : `${first} ${[...last][0]!.toUpperCase()}.`;
}

/** Coordinators see whole names; everybody sees their own. */
export function nameFor(reader: Who | null, person: { readonly id: string; readonly name: string }): string {
  return reader?.role === 'coordinator' || reader?.personId === person.id ? person.name : shortName(person.name);
}
