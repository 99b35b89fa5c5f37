import type { ClientInit, HandleClientError } from '@sveltejs/kit';
import { readWordsBy, wordsForOthers } from '$lib/messages/index.ts';
import { isLanguage, LANGUAGE_COOKIE, type Language, languageFor, USUAL_LANGUAGE } from '$lib/messages/languages.ts';
import type { ForField, ForLeads, ForOthers, Messages } from '$lib/messages/shape.ts';
import { pageClass } from '$lib/paths/page-class.ts';
import { isLogPath } from '$lib/paths/paths.ts';
import { builds } from '$lib/worker/state.svelte.ts';

interface Catalogue {
  readonly field: () => Promise<{ readonly field: ForField }>;
  readonly others: () => Promise<{ readonly others: ForOthers }>;
  readonly leads: () => Promise<{ readonly leads: ForLeads }>;
  readonly carry: () => Promise<{ readonly carry: ForOthers['carry'] }>;
}
const CATALOGUES: Readonly<Record<Language, Catalogue>> = {
  en: {
    field: () => import('$lib/messages/en/field.ts'),
    others: () => import('$lib/messages/en/others.ts'),
    leads: () => import('$lib/messages/en/leads.ts'),
    carry: () => import('$lib/messages/en/carry.ts'),
  },
  es: {
    field: () => import('$lib/messages/es/field.ts'),
    others: () => import('$lib/messages/es/others.ts'),
    leads: () => import('$lib/messages/es/leads.ts'),
    carry: () => import('$lib/messages/es/carry.ts'),
  },
};

/** The page came in the reader's language; its words are here before anything of it wakes up. */
export const init: ClientInit = async () => {
  addEventListener('vite:preloadError', ({ payload }) => {
    // A page that cannot be gone to shows so itself; one that was only likely to be wanted is not missed.
    if (!payload.message.includes('/nodes/')) builds.partGone = true;
  });
  const root = document.documentElement;
  // The shell is one for all readers: what the server knows of them from their cookies is read here.
  if (root.dataset.shell === '') dressShell(root);
  const { lang } = root;
  const catalogue = CATALOGUES[isLanguage(lang) ? lang : USUAL_LANGUAGE];
  // Without the further parts until the pages ask for them, which they do before one that needs them.
  let said = (await catalogue.field()).field as Messages;
  const add = (more: Partial<Messages>) => {
    said = { ...said, ...more };
  };
  readWordsBy(() => said, {
    others: async () => add((await catalogue.others()).others),
    leads: async () => add((await catalogue.leads()).leads),
    carry: async () => add({ carry: (await catalogue.carry()).carry }),
  });
  if (!isLogPath(location.pathname)) await wordsForOthers();
};

/** Chromium, Firefox and Safari each say in their own words that a file of the build did not come. */
const DID_NOT_COME = /dynamically imported module|module script/i;

export const handleError: HandleClientError = ({ error, message }) =>
  error instanceof TypeError && DID_NOT_COME.test(error.message) ? { message, code: 'gone' } : { message };

function dressShell(root: HTMLElement): void {
  const cookie = (name: string) => new RegExp(`(?:^|; )${name}=([^;]*)`).exec(document.cookie)?.[1];
  root.lang = languageFor(cookie(LANGUAGE_COOKIE), navigator.languages.join(','));
  root.className = `${pageClass(location.pathname)} scripted`.trim();
  const paper = cookie('paper');
  if (paper === 'day' || paper === 'night') root.dataset.paper = paper;
}
