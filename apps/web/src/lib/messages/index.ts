import { en } from './en.ts';

/** The words of the pages. A second language is one more catalogue of this shape. */
export type Messages = typeof en;
export const words: Messages = en;
export const LANGUAGE = 'en-GB';
