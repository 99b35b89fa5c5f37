import type { Language } from '@middenry/contract';
import { REFUSAL_WORDS, type RefusalWords } from './refusal-words.ts';

type Say = (words: RefusalWords) => string;

/** Why a file is not taken in, in one plain sentence of each language. Nothing was changed. */
export class BringBackRefusal extends Error {
  readonly #say: Say;

  constructor(say: Say) {
    super(say(REFUSAL_WORDS.en));
    this.#say = say;
  }

  in(language: Language): string {
    return this.#say(REFUSAL_WORDS[language]);
  }
}

export const refuseFile = (say: Say): BringBackRefusal => new BringBackRefusal(say);
