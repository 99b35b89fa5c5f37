/** What the server itself says to people, in their language: mails, calendars, texts to copy, names of what goes in. A language is a file beside this, and a line here. */
import { LANGUAGES, type Language, Languages } from '@middenry/contract';
import { firstWished } from '@middenry/domain';
import { messageSetting } from '../../db/repositories/message-setting.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import type { Store } from '../../db/store.ts';
import { en, type Words } from './en.ts';
import { es } from './es.ts';

export const WORDS: Readonly<Record<Language, Words>> = { en, es };
export const USUAL_LANGUAGE: Language = 'en';
/** Set by the pages, on the device where somebody chose. */
export const LANGUAGE_COOKIE = 'language';

/** What the reader of an answer speaks: what they chose on this device, else the first of their browser's wishes that there is. */
export function languageAsked(chosen: string | undefined, accepted: string | undefined): Language {
  const spoken = Languages.safeParse(chosen);
  return spoken.success ? spoken.data : (firstWished(accepted, LANGUAGES) ?? USUAL_LANGUAGE);
}

/** The language somebody chose; whoever never did is written to in the programme's. */
export function languageOf(store: Store, personId: string): Language {
  const chosen = Languages.safeParse(messageSetting(store, personId).language);
  if (chosen.success) return chosen.data;
  const ours = Languages.safeParse(findProgramme(store)?.locale.split('-')[0]);
  return ours.success ? ours.data : USUAL_LANGUAGE;
}

export const wordsFor = (store: Store, personId: string): Words => WORDS[languageOf(store, personId)];

/** Such as Saturday 5 December: as the programme's country writes it, where that speaks the language. */
export function dateWords(words: Words, localDate: string, programmeLocale: string): string {
  const locale = programmeLocale.split('-')[0] === words.locale.split('-')[0] ? programmeLocale : words.locale;
  const day = new Intl.DateTimeFormat(locale, { weekday: 'long', day: 'numeric', month: 'long', timeZone: 'UTC' });
  return day.format(new Date(`${localDate}T12:00:00Z`)).replace(',', '');
}
