import { firstWished } from '@middenry/domain';

/** The languages there are, each with its own name for itself. The file of its words has the same two letters. */
export const LANGUAGES = { en: 'English', es: 'Español' } as const;
export type Language = keyof typeof LANGUAGES;
export const USUAL_LANGUAGE: Language = 'en';
export const LANGUAGE_COOKIE = 'language';

export function isLanguage(text: string | null | undefined): text is Language {
  return text !== null && text !== undefined && Object.hasOwn(LANGUAGES, text);
}

/** The language for a reader: the one they chose, else the first of their browser's that there is. The API names foods by the same rule. */
export function languageFor(chosen: string | undefined, accepted: string | null): Language {
  return isLanguage(chosen) ? chosen : (firstWished(accepted, Object.keys(LANGUAGES) as Language[]) ?? USUAL_LANGUAGE);
}
