import { words } from '../messages/index.ts';
import type { Language } from '../messages/languages.ts';
import type { ForConsents } from '../messages/shape.ts';

const WORDS: Readonly<Record<Language, () => Promise<{ readonly consentWords: ForConsents }>>> = {
  en: () => import('../messages/en/consents.ts'),
  es: () => import('../messages/es/consents.ts'),
};

/** Few pages need these words, so they come with those. */
export const readConsentWords = async (): Promise<ForConsents> => (await WORDS[words.figures.language as Language]()).consentWords;
