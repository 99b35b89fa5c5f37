import { words } from '../messages/index.ts';
import type { EntryKind } from './entry-kinds.ts';

/** The save button says what will be saved. */
export function saveWord(kind: EntryKind, said: { readonly amount: string; readonly zone: string | null }): string {
  const w = words.log;
  if (kind === 'check') return w.saveCheck;
  if (kind === 'care' || kind === 'note' || kind === 'worms') return w.saveOther[kind];
  if (said.amount === '') return kind === 'harvest' ? w.saveHarvest : w.save;
  return w.saveWith([said.amount, kind === 'feeding' && said.zone !== null ? w.inZone(said.zone) : ''].filter(Boolean).join(', '));
}
