import { words } from '$lib/messages/index.ts';
import type { Language } from '$lib/messages/languages.ts';
import type { ForFlags } from '$lib/messages/shape.ts';
import type { PageLoad } from './$types';

const WORDS: Readonly<Record<Language, () => Promise<{ readonly flagWords: ForFlags }>>> = {
  en: () => import('$lib/messages/en/flags.ts'),
  es: () => import('$lib/messages/es/flags.ts'),
};

/** No other page needs these words, so they come with this one. */
export const load: PageLoad = async () => ({ flags: (await WORDS[words.figures.language as Language]()).flagWords });
