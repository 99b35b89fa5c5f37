import type { Advice } from '../bin/types.ts';

export interface BeddingChoice {
  readonly kg: number;
  /** As much as this food asks for. */
  readonly advised: boolean;
}

const LEAST_KG = 0.1;
/** Where the bin asks for none, a handful or two is what people add. */
const HANDFULS_KG = 0.2;
const tenth = (kg: number) => Math.round(kg * 10) / 10;

/** None, what goes with this much food, and twice that; what is chosen already stays among them. */
export function beddingChoicesKg(advice: Pick<Advice, 'massKg' | 'beddingKg'>, foodKg: number | null, chosenKg: number): BeddingChoice[] {
  const perKg = advice.massKg > 0 ? advice.beddingKg / advice.massKg : 0;
  const wantedKg = foodKg === null || perKg === 0 ? advice.beddingKg : perKg * foodKg;
  const isAdvised = wantedKg >= LEAST_KG / 2;
  const stepKg = isAdvised ? Math.max(LEAST_KG, tenth(wantedKg)) : HANDFULS_KG;
  const kinds = new Set([0, stepKg, tenth(2 * stepKg), chosenKg]);
  return [...kinds].sort((a, b) => a - b).map((kg) => ({ kg, advised: isAdvised && kg === stepKg }));
}
