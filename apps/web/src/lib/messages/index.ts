import type { Messages } from './shape.ts';

export type { Messages } from './shape.ts';

let read: () => Messages = unread;
// The browser's build leaves this out whole, so that a phone downloads its reader's language only; an import at the top would stay.
if (import.meta.env.SSR) {
  const { en } = await import('./en.ts');
  read = () => en;
}

function unread(): Messages {
  throw new Error('The words were asked for before they were there.');
}

/** What a browser fetches only when a page needs it: everybody's pages away from the bin, those of coordinators and site leads, and what carries notes. */
export interface Further {
  readonly others: () => Promise<void>;
  readonly leads: () => Promise<void>;
  readonly carry: () => Promise<void>;
}
const nothingMore = async () => undefined;
let further: Further = { others: nothingMore, leads: nothingMore, carry: nothingMore };

/** Says where the reader's words are: in the browser once, on the server per request, where all of them always are. */
export function readWordsBy(reader: () => Messages, fetched = further): void {
  read = reader;
  further = fetched;
}

/** Makes sure of the words of every page but the log page, before one is drawn. */
export const wordsForOthers = (): Promise<void> => further.others();

/** Makes sure of the words of what waits on a phone and what it carries, before that starts. */
export const wordsToCarry = (): Promise<void> => further.carry();

/** Makes sure of the words that only coordinators and site leads need, before a page of theirs is drawn. */
export const wordsForLeads = (): Promise<void> => further.leads();

/**
 * The words for whoever reads the page being made. Ask inside a component or a function, never while
 * a module loads: on the server that would keep one reader's language for all.
 */
export const words: Messages = new Proxy({} as Messages, { get: (_none, key) => Reflect.get(read(), key) });
