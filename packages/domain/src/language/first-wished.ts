/**
 * The first language of a reader's wishes that there is.
 *
 * @param accepted the header Accept-Language, RFC 9110 section 12.5.4
 * @returns One of `spoken`, or undefined where none is wished for
 */
export function firstWished<L extends string>(accepted: string | null | undefined, spoken: readonly L[]): L | undefined {
  const wishes = (accepted ?? '')
    .split(',')
    .map((wish) => {
      const [range = '', ...settings] = wish.trim().toLowerCase().split(';');
      const q = settings.map((s) => /^\s*q=([\d.]+)\s*$/.exec(s)?.[1]).find((s) => s !== undefined);
      return { language: range.split('-')[0] ?? '', weight: q === undefined ? 1 : Number(q) };
    })
    .filter((wish) => wish.weight > 0)
    .sort((a, b) => b.weight - a.weight);
  return wishes.map((wish) => spoken.find((language) => language === wish.language)).find((language) => language !== undefined);
}
