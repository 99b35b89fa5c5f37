import type CareFields from './CareFields.svelte';
import type CheckFields from './CheckFields.svelte';
import type { EntryKind } from './entry-kinds.ts';
import type HarvestFields from './HarvestFields.svelte';
import type WormsFields from './WormsFields.svelte';

export interface KindFields {
  readonly check?: typeof CheckFields;
  readonly care?: typeof CareFields;
  readonly harvest?: typeof HarvestFields;
  readonly worms?: typeof WormsFields;
}

/** The fields of a kind that not every visit asks for, fetched with the page that shows them, so that a feeding need not wait for them (B26). */
export async function fieldsOfKind(kind: EntryKind): Promise<KindFields> {
  if (kind === 'check') return { check: (await import('./CheckFields.svelte')).default };
  if (kind === 'care') return { care: (await import('./CareFields.svelte')).default };
  if (kind === 'harvest') return { harvest: (await import('./HarvestFields.svelte')).default };
  return kind === 'worms' ? { worms: (await import('./WormsFields.svelte')).default } : {};
}
