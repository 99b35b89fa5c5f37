import type { BodyOf } from '../api/calls.ts';
import { KG_PER, type MassUnit } from '../format/units.ts';

export type FeedingItem = BodyOf<'logFeeding'>['items'][number];
export const BY_WEIGHT = 'weight';
export const containerChoice = (id: string) => `container:${id}`;
/** How often a container can be chosen with one press. */
export const COUNTS = ['0.5', '1', '2', '3'] as const;

export interface AmountChoices {
  readonly amount: string;
  readonly count: string;
  readonly weight: string;
  readonly unit: MassUnit;
}
const FINE = 1000;

/**
 * The presses that give this amount again, or null where none do: a container that is gone, a count that has no
 * button, a guess, a weight with its container.
 */
export function choicesOf(item: FeedingItem, containers: readonly { readonly id: string }[], unit: MassUnit): AmountChoices | null {
  if (item.how === 'container' && item.containerId) {
    const count = String(item.containerCount ?? 1);
    const isThere = COUNTS.some((one) => one === count) && containers.some((c) => c.id === item.containerId);
    return isThere ? { amount: containerChoice(item.containerId), count, weight: '', unit } : null;
  }
  if (item.how !== 'weighed' || item.containerId) return null;
  const { typed } = item;
  const shown = Math.round((item.massKg / KG_PER[unit]) * FINE) / FINE;
  const said = typed && typed.unit !== 'container' ? { weight: String(typed.value), unit: typed.unit } : { weight: String(shown), unit };
  return { amount: BY_WEIGHT, count: '1', ...said };
}
