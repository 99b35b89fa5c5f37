import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';
import type { EntryKind } from './entry-kinds.ts';

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

/** What an entry says while only the phone has it. */
export function bodyWords(kind: EntryKind, body: object, f: Format): string {
  const massKg = massKgOf(body);
  const zone = 'zone' in body && typeof body.zone === 'number' ? words.log.inZone(String(body.zone)) : '';
  return [words.log.kinds[kind], massKg > 0 ? f.mass(massKg) : '', zone].filter(Boolean).join(', ');
}
