import { AsyncLocalStorage } from 'node:async_hooks';
import { en } from './en.ts';
import { es } from './es.ts';
import { readWordsBy } from './index.ts';
import type { Language } from './languages.ts';
import type { Messages } from './shape.ts';

const CATALOGUES: Readonly<Record<Language, Messages>> = { en, es };
const reading = new AsyncLocalStorage<Messages>();
readWordsBy(() => reading.getStore() ?? en);

/** Everything done within, awaited or not, speaks one language, whoever else is served meanwhile. */
export function inLanguage<Done>(language: Language, work: () => Done): Done {
  return reading.run(CATALOGUES[language], work);
}
