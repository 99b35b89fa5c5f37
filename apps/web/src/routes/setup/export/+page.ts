import { need } from '$lib/api/call.ts';
import { words, wordsForLeads } from '$lib/messages/index.ts';
import type { Language } from '$lib/messages/languages.ts';
import type { ForBringBack } from '$lib/messages/shape.ts';
import type { PageLoad } from './$types';

const WORDS: Readonly<Record<Language, () => Promise<{ readonly bringBackWords: ForBringBack }>>> = {
  en: () => import('$lib/messages/en/bring-back.ts'),
  es: () => import('$lib/messages/es/bring-back.ts'),
};

/** No other page needs these words, so they come with this one. */
export const load: PageLoad = async ({ fetch }) => {
  const [setup, { bringBackWords }] = await Promise.all([
    need(fetch, 'readSetup'),
    WORDS[words.figures.language as Language](),
    wordsForLeads(),
  ]);
  return { setup, bringBack: bringBackWords };
};
