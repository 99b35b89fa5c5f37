/** A typed weight: number, unit, container, and whether somebody only guessed. */
import type { MassUnit } from '../units/mass.ts';
import { type DecimalMark, readNumber } from './numbers.ts';
import { plainText, type SheetCell } from './sheet.ts';

const UNIT_WORDS: Readonly<Record<MassUnit, readonly string[]>> = {
  kg: ['kg', 'kgs', 'kilo', 'kilos', 'kilogram', 'kilograms', 'kilogramo', 'kilogramos', 'kilogramme', 'kilogrammes'],
  g: ['g', 'gr', 'grs', 'gm', 'gms', 'gram', 'grams', 'gramo', 'gramos', 'gramme', 'grammes'],
  lb: ['lb', 'lbs', 'pound', 'pounds', 'libra', 'libras', '#'],
  oz: ['oz', 'ozs', 'ounce', 'ounces', 'onza', 'onzas'],
};
const UNIT_OF = new Map(Object.entries(UNIT_WORDS).flatMap(([unit, names]) => names.map((name) => [name, unit as MassUnit] as const)));

export const unitOf = (word: string): MassUnit | undefined => UNIT_OF.get(word.trim().toLowerCase().replace(/\.$/, ''));

/** The one unit that a heading names; undefined for none or several. */
export function unitInHeading(heading: string): MassUnit | undefined {
  const found = new Set(
    plainText(heading)
      .split(' ')
      .flatMap((word) => unitOf(word) ?? []),
  );
  return found.size === 1 ? [...found][0] : undefined;
}

export type AmountFault = 'no-amount' | 'not-a-number' | 'several-amounts' | 'not-above-zero' | 'mark-unknown' | 'unit-unknown';

export interface AmountPart {
  readonly value: number;
  /** null: the cell names none. */
  readonly unit: MassUnit | null;
  /** Any other word behind the number, plain: a container such as bucket. */
  readonly container: string | null;
}

export interface AmountRead {
  /** More than one for "3 lb 4 oz". */
  readonly parts: readonly AmountPart[];
  readonly isGuess: boolean;
}

const ABOUT = /^(~|≈|c\.|ca\.?\s|circa\s|about\s|approx\.?\s|approximately\s|aprox\.?\s|unos\s|unas\s|est\.?\s)\s*/i;
/** A number with its fraction, then what stands behind it. */
const PIECE = /([+-]?\d[\d.,'’\u00a0\u202f]*(?:\s+\d{1,2}\/\d{1,2})?\s*[½¼¾⅓⅔⅛⅜⅝⅞]?|[½¼¾⅓⅔⅛⅜⅝⅞]|\d{1,2}\/\d{1,2})\s*([^\d½¼¾⅓⅔⅛⅜⅝⅞]*)/g;
const RANGE = /\d\s*(-|–|—|to|a|or|o)\s*\d/i;

/** The figures of an amount, for finding out about their decimal mark. */
export const figuresIn = (text: string): string[] =>
  [...text.replace(ABOUT, '').matchAll(PIECE)]
    .map(([, figures = '']) => figures.trim())
    .filter((figures) => !/[\s/½¼¾⅓⅔⅛⅜⅝⅞]/.test(figures));

export function readAmount(cell: SheetCell, mark: DecimalMark | null): AmountRead | AmountFault {
  if (cell.number !== undefined)
    return cell.number > 0 ? whole([{ value: cell.number, unit: null, container: null }], false) : 'not-above-zero';
  const text = cell.text.trim();
  if (text === '') return 'no-amount';
  const isGuess = ABOUT.test(text) || /\?$/.test(text);
  const bare = text.replace(ABOUT, '').replace(/\s*\?$/, '');
  if (RANGE.test(bare)) return 'several-amounts';
  const compact = bare.replace(/(\d)[\u00a0\u202f '’](?=\d{3}(\D|$))/g, '$1');
  const pieces = [...compact.matchAll(PIECE)];
  const covered = pieces.map(([all]) => all).join('');
  if (pieces.length === 0 || covered.length !== compact.length) return 'not-a-number';
  const parts: AmountPart[] = [];
  for (const [, figures = '', behind = ''] of pieces) {
    const part = partOf(figures, behind, mark);
    if (typeof part === 'string') return part;
    parts.push(part);
  }
  return severalFit(parts) ? whole(parts, isGuess) : 'several-amounts';
}

const whole = (parts: readonly AmountPart[], isGuess: boolean): AmountRead => ({ parts, isGuess });

function partOf(figures: string, behind: string, mark: DecimalMark | null): AmountPart | AmountFault {
  const value = readNumber(figures.trim(), mark);
  if (value === null) return 'not-a-number';
  if (value === 'ask') return 'mark-unknown';
  if (value <= 0) return 'not-above-zero';
  const word = behind.trim().replace(/^(of|de)\s+/i, '');
  if (word === '' || word === '.') return { value, unit: null, container: null };
  const unit = unitOf(word);
  if (unit !== undefined) return { value, unit, container: null };
  const container = plainText(word);
  return container === '' || /[+&,;/]/.test(word) ? 'unit-unknown' : { value, unit: null, container };
}

/** "3 lb 4 oz" and "1 kg 200 g" are one weight; two numbers otherwise are two. */
function severalFit(parts: readonly AmountPart[]): boolean {
  if (parts.length === 1) return true;
  const units = parts.map(({ unit }) => unit);
  return parts.length === 2 && (units.join() === 'lb,oz' || units.join() === 'kg,g');
}
