import { countWord } from '../bin/fills.ts';
import type { Entry } from '../bin/types.ts';
import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';
import type { PocketOutlook } from '../pocket/types.ts';

export type Feeding = Extract<Entry, { kind: 'feeding' }>;

/** One's own last feeding of this bin, since people bring the same bucket again; without one, the bin's last. */
export function lastFeedingOf(entries: readonly Entry[]): Feeding | null {
  const fed = entries.filter((e): e is Feeding => e.kind === 'feeding' && e.undoneAt === null);
  return fed.find((e) => e.mine) ?? fed[0] ?? null;
}

/** The same food again goes where the turn is now; where none is next, to where it went. */
export function zoneAgain(last: Feeding, outlook: PocketOutlook): { zone: number; isNext: boolean } {
  const next = outlook.advice.zones[0] ?? outlook.zones.find((z) => z.isNext)?.zone;
  return next === undefined ? { zone: last.zone, isNext: false } : { zone: next, isNext: true };
}

/** What, how much and where, for the button that says it all again. */
export function sameAgainWords(
  last: Feeding,
  outlook: PocketOutlook,
  containers: readonly { id: string; name: string }[],
  f: Format,
): string {
  const w = words.noting;
  const foods = last.items.map((item) => {
    const container = containers.find((c) => c.id === item.containerId && item.how === 'container');
    const amount = container
      ? words.feedingIt.fill(countWord(item.containerCount ?? 1), words.midSentence(container.name))
      : f.mass(item.massKg);
    return w.amountOf(amount, words.midSentence(item.materialName));
  });
  const bedding = last.beddingKg > 0 ? [w.withBedding(f.mass(last.beddingKg))] : [];
  const { zone, isNext } = zoneAgain(last, outlook);
  return w.sameWords(f.list([...foods, ...bedding]), String(zone), isNext);
}

const UNDO_OFFERED_MS = 15 * 60_000;

/** What this person noted here a moment ago and may want to take back. */
export function justNotedOf(entries: readonly Entry[], now: Date): Entry | null {
  const fresh = entries.filter((e) => e.mine && e.undoneAt === null && now.getTime() - Date.parse(e.receivedAt) < UNDO_OFFERED_MS);
  return fresh.sort((a, b) => b.receivedAt.localeCompare(a.receivedAt))[0] ?? null;
}
