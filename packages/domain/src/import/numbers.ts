/** What a typed number means. Whether a comma divides is decided from the whole column, or asked; never guessed. */

export type DecimalMark = 'point' | 'comma';
/** `free`: no cell depends on it. */
export type MarkFound = DecimalMark | 'free' | 'ask';

const FRACTIONS: Readonly<Record<string, number>> = {
  '½': 1 / 2,
  '¼': 1 / 4,
  '¾': 3 / 4,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
};
/** Figures with their marks, and nothing else. */
const DIGITS = /^[+-]?\d[\d.,'’\u00a0\u202f ]*$/;
const THREE_BEHIND = /^[1-9]\d{0,2}[.,]\d{3}$/;

/** What one text says of the mark: undefined when it depends on it, null when it does not care. */
function markIn(text: string): DecimalMark | null | undefined {
  const last = Math.max(text.lastIndexOf('.'), text.lastIndexOf(','));
  if (last < 0) return null;
  const sign = text[last];
  const found = sign === '.' ? 'point' : 'comma';
  const signs = text.replace(/[^.,]/g, '');
  if (signs.includes('.') && signs.includes(',')) return found;
  // The same sign twice can only part the thousands.
  if (signs.length > 1) return found === 'point' ? 'comma' : 'point';
  return THREE_BEHIND.test(text) ? undefined : found;
}

/** What the numbers of a column say of their mark, taken together. */
export function markOf(texts: readonly string[]): MarkFound {
  let isNeeded = false;
  const seen = new Set<DecimalMark>();
  for (const text of texts) {
    const mark = markIn(text.replace(/^[+-]/, ''));
    if (mark === undefined) isNeeded = true;
    else if (mark !== null) seen.add(mark);
  }
  if (!isNeeded) return 'free';
  return seen.size === 1 ? [...seen][0]! : 'ask';
}

/** A number, null when the text is none, or `ask` when it depends on a mark that nobody knows. */
export function readNumber(text: string, mark: DecimalMark | null): number | null | 'ask' {
  const trimmed = text.trim();
  const fraction = readFraction(trimmed);
  if (fraction !== null) return fraction;
  if (!DIGITS.test(trimmed)) return null;
  const bare = trimmed.replace(/['’\u00a0\u202f ](?=\d{3}(\D|$))/g, '');
  if (/['’\u00a0\u202f ]/.test(bare)) return null;
  const own = markIn(bare.replace(/^[+-]/, ''));
  const used = own === undefined ? mark : own;
  if (own === undefined && used === null) return 'ask';
  return byMark(bare, used);
}

function byMark(text: string, mark: DecimalMark | null): number | null {
  const parting = mark === 'comma' ? '.' : ',';
  const dividing = mark === 'comma' ? ',' : '.';
  const [whole = '', ...rest] = text.split(dividing);
  if (rest.length > 1 || rest.some((part) => part.includes(parting))) return null;
  const groups = whole.replace(/^[+-]/, '').split(parting);
  if (groups.length > 1 && !(groups[0]!.length <= 3 && groups.slice(1).every((group) => group.length === 3))) return null;
  const value = Number(`${whole.replaceAll(parting, '')}.${rest[0] ?? '0'}`.replace(/\.$/, ''));
  return Number.isFinite(value) ? value : null;
}

/** "½", "2½", "1/2", "2 1/2". */
function readFraction(text: string): number | null {
  const [, whole = '', sign] = /^(\d*)\s*([½¼¾⅓⅔⅛⅜⅝⅞])$/.exec(text) ?? [];
  if (sign !== undefined) return Number(whole || 0) + (FRACTIONS[sign] ?? 0);
  const [, before, above, below] = /^(?:(\d+)\s+)?(\d{1,2})\/(\d{1,2})$/.exec(text) ?? [];
  if (above === undefined || Number(below) === 0) return null;
  return Number(before ?? 0) + Number(above) / Number(below);
}
