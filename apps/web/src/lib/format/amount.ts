import type { MassUnit } from './units.ts';

/**
 * What a typed amount says. `unclear` asks back with both readings, since guessing between
 * one and a half and fifteen hundred would be worse than asking.
 */
export type Amount =
  | { readonly status: 'ok'; readonly value: number; readonly unit: MassUnit | null }
  | { readonly status: 'unclear'; readonly readings: readonly [number, number]; readonly unit: MassUnit | null }
  | { readonly status: 'empty' }
  | { readonly status: 'negative' }
  | { readonly status: 'not-a-number' };

const UNITS: Readonly<Record<string, MassUnit>> = {
  kg: 'kg',
  kgs: 'kg',
  kilo: 'kg',
  kilos: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  kilogramo: 'kg',
  kilogramos: 'kg',
  g: 'g',
  gr: 'g',
  gram: 'g',
  grams: 'g',
  gramo: 'g',
  gramos: 'g',
  lb: 'lb',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
  libra: 'lb',
  libras: 'lb',
  '#': 'lb',
  oz: 'oz',
  ounce: 'oz',
  ounces: 'oz',
  onza: 'oz',
  onzas: 'oz',
};
const FRACTIONS: Readonly<Record<string, string>> = { '½': ' 1/2', '¼': ' 1/4', '¾': ' 3/4', '⅓': ' 1/3', '⅔': ' 2/3' };

/** Reads `1,5`, `1.5`, ` 1.5 kg`, `1 1/2 lb`, `1 lb 4 oz`; refuses `1,500` as unclear. */
export function readAmount(typed: string): Amount {
  const text = typed
    .trim()
    .toLowerCase()
    .replace(/[½¼¾⅓⅔]/g, (f) => FRACTIONS[f] ?? f)
    .replace(/[\u00a0\u202f\u2009]/g, ' ')
    .replace(/[−–—]/g, '-')
    .trim();
  if (text === '') return { status: 'empty' };
  const poundsOunces = /^(\d+)\s*(?:lbs?|pounds?|#)\s*(\d+(?:[.,]\d+)?)\s*(?:oz|ounces?)\.?$/.exec(text);
  if (poundsOunces)
    return { status: 'ok', value: Number(poundsOunces[1]) * 16 + Number((poundsOunces[2] ?? '').replace(',', '.')), unit: 'oz' };
  const parts = /^([+-]?)\s*([\d.,'’ ]*\d[\d.,'’ ]*?(?:\s*\d?\/\d+)?|[.,]\d+)\s*([a-z#]*)\.?$/.exec(text);
  if (!parts) return { status: 'not-a-number' };
  const unit = unitOf(parts[3] ?? '');
  if (unit === undefined) return { status: 'not-a-number' };
  if (parts[1] === '-') return { status: 'negative' };
  return readNumber((parts[2] ?? '').trim(), unit);
}

function unitOf(word: string): MassUnit | null | undefined {
  return word === '' ? null : UNITS[word];
}

function readNumber(text: string, unit: MassUnit | null): Amount {
  const fraction = /^(?:(\d+)\s+)?(\d+)\/(\d+)$/.exec(text);
  if (fraction) {
    const below = Number(fraction[3]);
    if (below === 0) return { status: 'not-a-number' };
    return { status: 'ok', value: Number(fraction[1] ?? 0) + Number(fraction[2]) / below, unit };
  }
  // Spaces and apostrophes only ever part thousands; anywhere else they are a slip.
  const parted = /^\d{1,3}(?:[ '’]\d{3})+(?:[.,]\d+)?$/.test(text);
  if (/[ '’]/.test(text) && !parted) return { status: 'not-a-number' };
  const plain = text.replace(/[ '’]/g, '');
  if (parted) return ok(plain.replace(',', '.'), unit);
  return readMarks(plain, unit);
}

function readMarks(plain: string, unit: MassUnit | null): Amount {
  const commas = plain.split(',').length - 1;
  const points = plain.split('.').length - 1;
  if (commas > 0 && points > 0) {
    const decimal = plain.lastIndexOf(',') > plain.lastIndexOf('.') ? ',' : '.';
    const thousands = decimal === ',' ? '.' : ',';
    if (plain.split(decimal).length > 2) return { status: 'not-a-number' };
    const whole = plain.slice(0, plain.indexOf(decimal));
    if (!/^\d{1,3}([.,]\d{3})+$/.test(whole)) return { status: 'not-a-number' };
    return ok(plain.split(thousands).join('').replace(decimal, '.'), unit);
  }
  if (commas > 1 || points > 1) {
    return /^\d{1,3}([.,]\d{3})+$/.test(plain) ? ok(plain.replace(/[.,]/g, ''), unit) : { status: 'not-a-number' };
  }
  if (commas === 1) {
    const [before = '', after = ''] = plain.split(',');
    if (after === '') return { status: 'not-a-number' };
    if (after.length === 3 && /^[1-9]\d{0,2}$/.test(before)) {
      return { status: 'unclear', readings: [Number(`${before}.${after}`), Number(before + after)], unit };
    }
    return ok(`${before === '' ? '0' : before}.${after}`, unit);
  }
  if (plain.endsWith('.')) return { status: 'not-a-number' };
  return ok(plain.startsWith('.') ? `0${plain}` : plain, unit);
}

function ok(text: string, unit: MassUnit | null): Amount {
  const value = Number(text);
  return Number.isFinite(value) ? { status: 'ok', value, unit } : { status: 'not-a-number' };
}
