import type { Format } from '../format/format.ts';
import { BY_WEIGHT, containerChoice } from './amount-choices.ts';
import { heldKg } from './buckets.ts';
import type { EntryKind } from './entry-kinds.ts';
import type { LogForm } from './log-form.svelte.ts';
import { unitBehind } from './weigh.ts';

type Containers = readonly { readonly id: string; readonly name: string }[];

/** How much is chosen so far, for the button that saves it. */
export function typedWords(kind: EntryKind, typed: LogForm, containers: Containers, f: Format): string {
  const listedKg = kind === 'harvest' ? heldKg(typed.buckets) : typed.items.reduce((sum, item) => sum + item.massKg, 0);
  const listed = listedKg > 0 ? [f.mass(listedKg)] : [];
  return [...listed, ...amountWords(kind, typed, containers)].join(' + ');
}

function amountWords(kind: EntryKind, { amount, weight, unit, count }: LogForm, containers: Containers): string[] {
  if (kind === 'harvest' || amount === BY_WEIGHT) return weight === '' ? [] : [`${weight} ${unitBehind(weight, unit)}`.trim()];
  const name = containers.find((c) => amount === containerChoice(c.id))?.name;
  if (name === undefined) return [];
  return [count === null || count === '1' ? name : `${count === '0.5' ? '½' : count} × ${name}`];
}
