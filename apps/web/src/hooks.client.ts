import type { ClientInit } from '@sveltejs/kit';
import { readWordsBy, wordsForOthers } from '$lib/messages/index.ts';
import { isLanguage, type Language, USUAL_LANGUAGE } from '$lib/messages/languages.ts';
import type { ForField, ForLeads, ForOthers, Messages } from '$lib/messages/shape.ts';
import { isLogPath } from '$lib/paths/paths.ts';

interface Catalogue {
  readonly field: () => Promise<{ readonly field: ForField }>;
  readonly others: () => Promise<{ readonly others: ForOthers }>;
  readonly leads: () => Promise<{ readonly leads: ForLeads }>;
}
const CATALOGUES: Readonly<Record<Language, Catalogue>> = {
  en: {
    field: () => import('$lib/messages/en/field.ts'),
    others: () => import('$lib/messages/en/others.ts'),
    leads: () => import('$lib/messages/en/leads.ts'),
  },
  es: {
    field: () => import('$lib/messages/es/field.ts'),
    others: () => import('$lib/messages/es/others.ts'),
    leads: () => import('$lib/messages/es/leads.ts'),
  },
};

/** The page came in the reader's language; its words are here before anything of it wakes up. */
export const init: ClientInit = async () => {
  const { lang } = document.documentElement;
  const catalogue = CATALOGUES[isLanguage(lang) ? lang : USUAL_LANGUAGE];
  // Without the further parts until the pages ask for them, which they do before one that needs them.
  let said = (await catalogue.field()).field as Messages;
  const add = (more: Partial<Messages>) => {
    said = { ...said, ...more };
  };
  readWordsBy(() => said, {
    others: async () => add((await catalogue.others()).others),
    leads: async () => add((await catalogue.leads()).leads),
  });
  if (!isLogPath(location.pathname)) await wordsForOthers();
};
