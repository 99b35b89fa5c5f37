import { unitOf } from '../format/units.ts';
import type { EntryKind } from './entry-kinds.ts';
import type { LogForm } from './log-form.svelte.ts';

/** What this device remembers from one note to the next, so that nobody is asked twice (criteria B8). */
const KEYS = { food: 'last-food', unit: 'last-unit' } as const;

/** Null in private windows, which may keep nothing, and on the server. */
function recall(what: keyof typeof KEYS): string | null {
  try {
    return localStorage.getItem(KEYS[what]);
  } catch {
    return null;
  }
}

function remember(what: keyof typeof KEYS, value: string): void {
  try {
    localStorage.setItem(KEYS[what], value);
  } catch {
    // As above: then the usual ones stand.
  }
}

/** Sets the form to what was used last, where nothing says otherwise. */
export function recallInto(typed: LogForm, foods: readonly { readonly id: string }[], kept: Readonly<Record<string, string>>): void {
  const food = recall('food');
  if (food && !kept.food && foods.some((one) => one.id === food)) typed.food = food;
  if (!kept.unit) typed.unit = unitOf(recall('unit')) ?? typed.unit;
}

export function rememberFrom(typed: LogForm, kind: EntryKind): void {
  if (kind === 'feeding' && typed.food) remember('food', typed.food);
  if (typed.weight !== '') remember('unit', typed.unit);
}
