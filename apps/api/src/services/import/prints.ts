import { createHash } from 'node:crypto';
import type { ImportItem } from '@middenry/domain';

/** A print for each row: the same row in another file has the same. Rows that are alike within one file are told apart by their number among them. */
export function printsOf(items: readonly ImportItem[]): string[] {
  const seen = new Map<string, number>();
  return items.map((item) => {
    const text = JSON.stringify(Object.entries(item).sort(([a], [b]) => (a < b ? -1 : 1)));
    const nth = (seen.get(text) ?? 0) + 1;
    seen.set(text, nth);
    return createHash('sha256').update(`${text} ${nth}`).digest('hex');
  });
}
