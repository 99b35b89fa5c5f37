/** What the server itself says to people, in their language: mails, calendars, texts to copy. A language is a file beside this, and a line here. */
import { type Language, Languages } from '@middenry/contract';
import { messageSetting } from '../../db/repositories/message-setting.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import type { Store } from '../../db/store.ts';
import { en, type Words } from './en.ts';
import { es } from './es.ts';

export const WORDS: Readonly<Record<Language, Words>> = { en, es };
const USUAL: Language = 'en';

/** The language somebody chose; whoever never did is written to in the programme's. */
export function languageOf(store: Store, personId: string): Language {
  const chosen = Languages.safeParse(messageSetting(store, personId).language);
  if (chosen.success) return chosen.data;
  const ours = Languages.safeParse(findProgramme(store)?.locale.split('-')[0]);
  return ours.success ? ours.data : USUAL;
}

export const wordsFor = (store: Store, personId: string): Words => WORDS[languageOf(store, personId)];

/** Such as Saturday 5 December: as the programme's country writes it, where that speaks the language. */
export function dateWords(words: Words, localDate: string, programmeLocale: string): string {
  const locale = programmeLocale.split('-')[0] === words.locale.split('-')[0] ? programmeLocale : words.locale;
  const day = new Intl.DateTimeFormat(locale, { weekday: 'long', day: 'numeric', month: 'long', timeZone: 'UTC' });
  return day.format(new Date(`${localDate}T12:00:00Z`)).replace(',', '');
}
