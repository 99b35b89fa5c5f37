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

/** The field that a fault of the server belongs to. */
export function fieldAt(pointer: string): string | null {
  const fields: Readonly<Record<string, string>> = { '/zone': 'zone', '/massKg': 'weight', '/happenedAt': 'when' };
  return fields[pointer] ?? (pointer.startsWith('/items') ? 'amount' : null);
}

/** All that went in or came out, to be held against what is usual. */
export function massKgOf(body: object): number {
  if ('items' in body) return (body.items as { massKg: number }[]).reduce((sum, item) => sum + item.massKg, 0);
  return 'massKg' in body && typeof body.massKg === 'number' ? body.massKg : 0;
}
