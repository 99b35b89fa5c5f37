import type { WhatIfRepeat } from '@middenry/domain';
import { readAmount } from '../format/amount.ts';
import { KG_PER, LITRES_PER_QUART, type UnitSystem } from '../format/units.ts';

/** What is chosen, as the API takes it: masses in kilograms, the food by its id. */
export interface Choice {
  readonly foodKg: number;
  readonly food: string;
  readonly zones: number;
  readonly beddingKg: number;
  readonly repeat: WhatIfRepeat;
  readonly loosen: boolean;
  readonly takenOutFrac: number;
  readonly waterKg: number;
  readonly warmerC: number;
}
/** The same as it stands in the fields and in the address: numbers in the reader's units. */
export interface Shown {
  readonly mass: number;
  readonly food: string;
  readonly zones: number;
  readonly card: number;
  readonly again: WhatIfRepeat;
  readonly loosen: boolean;
  /** Per cent. */
  readonly out: number;
  readonly water: number;
  readonly warmer: number;
}
/** How far the sliders go at a bin, in the reader's units. */
export interface Room {
  readonly zones: number;
  readonly mass: number;
  readonly card: number;
  readonly water: number;
  readonly warmer: number;
}

export const REPEATS = ['once', 'weekly', 'every-3-days'] as const satisfies readonly WhatIfRepeat[];
export const FIRST_FOOD = 'food_scraps_veg';
export const NOTHING: Shown = {
  mass: 0,
  food: FIRST_FOOD,
  zones: 1,
  card: 0,
  again: 'once',
  loosen: false,
  out: 0,
  water: 0,
  warmer: 0,
};

const F_PER_C = 1.8;
const PER_CENT = 100;
const WARMER_C = 12;
/** Twice the big feeding of the signal `airless` (30 kg/m2, science-table-6): how far a slider goes, and no advice. */
export const HEAP_KG_PER_M2 = 60;
const LEAST_KG = 2;
const MOST_KG = 100;

const kgPer = (units: UnitSystem): number => (units === 'us' ? KG_PER.lb : 1);
const litresPer = (units: UnitSystem): number => (units === 'us' ? LITRES_PER_QUART : 1);
const degreesPer = (units: UnitSystem): number => (units === 'us' ? F_PER_C : 1);

export function roomOf(bin: { readonly areaM2: number; readonly zones: number }, units: UnitSystem): Room {
  const heapKg = Math.min(MOST_KG, Math.max(LEAST_KG, bin.areaM2 * HEAP_KG_PER_M2));
  const mass = Math.ceil(heapKg / kgPer(units));
  const water = Math.max(1, Math.round(heapKg / 2 / litresPer(units)));
  return { zones: bin.zones, mass, card: Math.max(1, Math.round(mass / 4)), water, warmer: Math.round(WARMER_C * degreesPer(units)) };
}

export function choiceOf(shown: Shown, units: UnitSystem): Choice {
  return {
    foodKg: shown.mass * kgPer(units),
    food: shown.food,
    zones: shown.zones,
    beddingKg: shown.card * kgPer(units),
    repeat: shown.again,
    loosen: shown.loosen,
    takenOutFrac: shown.out / PER_CENT,
    waterKg: shown.water * litresPer(units),
    warmerC: shown.warmer / degreesPer(units),
  };
}

/** Only what differs from nothing done, so that a link stays short; it names its units, so that it says the same to everybody. */
export function queryOf(shown: Shown, units: UnitSystem): string {
  const said = Object.entries(shown).filter(([name, value]) => value !== NOTHING[name as keyof Shown]);
  const search = new URLSearchParams(said.map(([name, value]) => [name, value === true ? 'on' : String(value)]));
  if (units === 'us' && said.length > 0) search.set('units', 'us');
  return search.toString();
}

/** Reads an address or a form sent without scripts; whatever makes no sense is as if it had not been said. */
export function readShown(said: URLSearchParams, room: Room, units: UnitSystem): Shown {
  const theirs: UnitSystem = said.get('units') === 'us' ? 'us' : 'metric';
  const number = (name: string, least: number, most: number, per: (units: UnitSystem) => number = () => 1): number => {
    const typed = (said.get(name) ?? '').trim();
    const amount = readAmount(typed.replace(/^-/, ''));
    if (amount.status !== 'ok') return Math.max(0, least);
    const value = typed.startsWith('-') ? -amount.value : amount.value;
    const turned = theirs === units ? value : (value * per(theirs)) / per(units);
    return Math.min(most, Math.max(least, turned));
  };
  return {
    mass: number('mass', 0, room.mass, kgPer),
    food: said.get('food') || FIRST_FOOD,
    zones: Math.round(number('zones', 1, room.zones)),
    card: number('card', 0, room.card, kgPer),
    again: REPEATS.find((repeat) => repeat === said.get('again')) ?? 'once',
    loosen: said.get('loosen') === 'on',
    out: number('out', 0, PER_CENT),
    water: number('water', 0, room.water, litresPer),
    warmer: number('warmer', -room.warmer, room.warmer, (units_) => 1 / degreesPer(units_)),
  };
}
