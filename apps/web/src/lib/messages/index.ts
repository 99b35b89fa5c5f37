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

/** Says where the reader's words are: in the browser once, on the server per request. */
export function readWordsBy(reader: () => Messages): void {
  read = reader;
}

/**
 * The words for whoever reads the page being made. Ask inside a component or a function, never while
 * a module loads: on the server that would keep one reader's language for all.
 */
export const words: Messages = new Proxy({} as Messages, { get: (_none, key) => Reflect.get(read(), key) });
