import { GRAMS_PER_KG } from '@middenry/domain';
import { readAmount } from '../format/amount.ts';
import type { Format } from '../format/format.ts';
import { type MassUnit, toKg } from '../format/units.ts';
import { words } from '../messages/index.ts';

export interface Tared {
  readonly id: string;
  readonly name: string;
  /** What it weighs empty. */
  readonly tareKg: number;
}

/** What is left when the empty container is taken off, in whole grams. */
export const netKg = (grossKg: number, tareKg: number): number => Math.round((grossKg - tareKg) * GRAMS_PER_KG) / GRAMS_PER_KG;

interface Typed {
  readonly weight: string;
  readonly unit: MassUnit;
  readonly tare: Tared | null;
}

/** The unit behind a number, unless one was typed with it. */
export const unitBehind = (weight: string, unit: MassUnit): MassUnit | '' => (/[a-z#]/i.test(weight) ? '' : unit);

/** The mass that a typed weight stands for, or null while it is none. */
export function typedKg({ weight, unit, tare }: Typed): number | null {
  const amount = readAmount(weight);
  if (amount.status !== 'ok') return null;
  const net = netKg(toKg(amount.value, amount.unit ?? unit), tare?.tareKg ?? 0);
  return net > 0 ? net : null;
}

/**
 * What the scale's number comes to, said while it is typed: "2 lb = 907 g", or the container taken off.
 * Empty where the number says it all already.
 */
export function weighedWords({ weight, unit, tare }: Typed, f: Format): string {
  const amount = readAmount(weight);
  if (amount.status !== 'ok' || amount.value === 0) return '';
  const used = amount.unit ?? unit;
  const grossKg = toKg(amount.value, used);
  const typed = `${amount.value.toLocaleString(f.settings.locale, { maximumFractionDigits: 3 })}\u00a0${used}`;
  const w = words.noting;
  if (tare) {
    const net = netKg(grossKg, tare.tareKg);
    return net > 0
      ? w.lessTare({ gross: typed, tare: f.massExact(tare.tareKg), name: tare.name, net: f.massExact(net) })
      : w.noMoreThanTare(tare.name, f.massExact(tare.tareKg));
  }
  if (used === f.massUnit) return '';
  return words.log.equals(typed, used === 'g' ? f.massExact(grossKg) : f.massFine(grossKg));
}
