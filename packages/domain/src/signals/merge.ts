import type { Band, Reason, SignalId, SignalOutlook } from './types.ts';

/** Which flag speaks for which others: they have one cause, and one remedy serves them. Nearest cause first. */
export const SPEAKS_FOR: readonly (readonly [SignalId, readonly SignalId[]])[] = [
  ['airless', ['overfed', 'wet', 'sour']],
  ['overfed', ['sour']],
  ['wet', ['bedding-low']],
  ['hungry', ['bedding-low']],
];

const WEIGHT: Readonly<Record<Band, number>> = { act: 3, watch: 2, unknown: 1, settled: 0 };

/**
 * Makes related flags one: the speaker takes over the reasons of those it speaks for.
 *
 * @shape signals[n] -> signals[n]
 * @returns The same signals in the same order; a flag is never hidden behind a weaker one
 * @source none: our rule
 */
export function mergeFlags(signals: readonly SignalOutlook[]): readonly SignalOutlook[] {
  const bandOf = (id: SignalId): Band => signals.find((each) => each.id === id)?.band ?? 'settled';
  const speakerOf = (signal: SignalOutlook): SignalId | null => {
    if (signal.band === 'settled') return null;
    const speaks = SPEAKS_FOR.find(
      ([speaker, parts]) => parts.includes(signal.id) && bandOf(speaker) !== 'settled' && WEIGHT[bandOf(speaker)] >= WEIGHT[signal.band],
    );
    return speaks?.[0] ?? null;
  };
  const direct = new Map(signals.map((signal) => [signal.id, speakerOf(signal)]));
  const topOf = (id: SignalId): SignalId => {
    const speaker = direct.get(id);
    return speaker ? topOf(speaker) : id;
  };
  return signals.map((signal) => {
    const top = topOf(signal.id);
    if (top !== signal.id) return { ...signal, partOf: top };
    const parts = signals.filter((each) => each.id !== signal.id && topOf(each.id) === signal.id);
    return parts.length === 0 ? signal : { ...signal, reasons: unique([...signal.reasons, ...parts.flatMap(({ reasons }) => reasons)]) };
  });
}

export function unique(reasons: readonly Reason[]): readonly Reason[] {
  const same = (a: Reason, b: Reason): boolean => a.code === b.code && a.values.zone === b.values.zone && a.values.day === b.values.day;
  return reasons.filter((each, index) => reasons.findIndex((other) => same(other, each)) === index);
}
