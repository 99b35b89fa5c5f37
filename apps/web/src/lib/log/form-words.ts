import { words } from '../messages/index.ts';
import type { EntryKind } from './entry-kinds.ts';

/** The cautions that belong to a kind of entry, always in place. */
export function cautionsOf(kind: EntryKind): string[] {
  const c = words.cautions;
  if (kind === 'harvest') return [c.gloves, c.lifting, c['damp-not-dusty'], c['castings-on-food'], c.leachate];
  if (kind === 'feeding') return [c.gloves, c['food-from-outside']];
  if (kind === 'care') return [c.gloves, c.flooding, c.leachate, c.lifting];
  return kind === 'note' ? [] : [c.gloves];
}

/** The save button says what will be saved. */
export function saveWord(kind: EntryKind, said: { readonly amount: string; readonly zone: string | null }): string {
  const w = words.log;
  if (kind === 'check') return w.saveCheck;
  if (kind === 'care' || kind === 'note' || kind === 'worms') return w.saveOther[kind];
  if (said.amount === '') return kind === 'harvest' ? w.saveHarvest : w.save;
  return w.saveWith([said.amount, kind === 'feeding' && said.zone !== null ? w.inZone(said.zone) : ''].filter(Boolean).join(', '));
}
