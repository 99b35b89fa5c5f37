/** The languages there are, each with its own name for itself. The file of its words has the same two letters. */
export const LANGUAGES = { en: 'English', es: 'Español' } as const;
export type Language = keyof typeof LANGUAGES;
export const USUAL_LANGUAGE: Language = 'en';
export const LANGUAGE_COOKIE = 'language';

export function isLanguage(text: string | null | undefined): text is Language {
  return text !== null && text !== undefined && Object.hasOwn(LANGUAGES, text);
}

/**
 * The language for a reader: the one they chose, else the first of their browser's that there is.
 *
 * @param accepted the header Accept-Language, RFC 9110 section 12.5.4
 */
export function languageFor(chosen: string | undefined, accepted: string | null): Language {
  if (isLanguage(chosen)) return chosen;
  const wishes = (accepted ?? '')
    .split(',')
    .map((wish) => {
      const [range = '', ...settings] = wish.trim().toLowerCase().split(';');
      const q = settings.map((s) => /^\s*q=([\d.]+)\s*$/.exec(s)?.[1]).find((s) => s !== undefined);
      return { language: range.split('-')[0] ?? '', weight: q === undefined ? 1 : Number(q) };
    })
    .filter((wish) => wish.weight > 0)
    .sort((a, b) => b.weight - a.weight);
  return wishes.map((wish) => wish.language).find(isLanguage) ?? USUAL_LANGUAGE;
}
