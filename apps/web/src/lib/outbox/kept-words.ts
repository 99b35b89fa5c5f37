import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';
import type { Kept } from '../phone/open.ts';

/** The fields of any kind of entry that a line about it may say. */
interface Said {
  readonly zone?: number | null;
  readonly massKg?: number | null;
  readonly items?: readonly { readonly massKg: number }[];
  readonly note?: string;
}

export function massOf({ body }: Pick<Kept, 'body'>): number | null {
  const { items, massKg } = body as Said;
  return items ? items.reduce((sum, item) => sum + item.massKg, 0) : (massKg ?? null);
}

/** What an entry that waits says, in one line that can be copied as well. */
export function keptWords(kept: Kept, f: Format): string {
  const { zone, note } = kept.body as Said;
  const mass = massOf(kept);
  const happened = kept.body.happenedAt;
  return [
    `${words.log.kinds[kept.kind]}, ${kept.binCode}`,
    `${f.date(f.localDayOf(happened))}, ${f.time(happened)}`,
    ...(mass === null ? [] : [f.mass(mass)]),
    ...(zone ? [words.waiting.zoneSaid(zone)] : []),
    ...(note ? [`“${note}”`] : []),
  ].join(', ');
}
