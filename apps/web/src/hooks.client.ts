import type { ClientInit } from '@sveltejs/kit';
import { readWordsBy } from '$lib/messages/index.ts';
import { isLanguage, type Language, USUAL_LANGUAGE } from '$lib/messages/languages.ts';
import type { Messages } from '$lib/messages/shape.ts';

const CATALOGUES: Readonly<Record<Language, () => Promise<Messages>>> = {
  en: async () => (await import('$lib/messages/en.ts')).en,
  es: async () => (await import('$lib/messages/es.ts')).es,
};

/** The page came in the reader's language; its words are here before anything of it wakes up. */
export const init: ClientInit = async () => {
  const { lang } = document.documentElement;
  const said = await CATALOGUES[isLanguage(lang) ? lang : USUAL_LANGUAGE]();
  readWordsBy(() => said);
};
