import type { bringBackWords } from './en/bring-back.ts';
import type { consentWords } from './en/consents.ts';
import type { field } from './en/field.ts';
import type { figures } from './en/figures.ts';
import type { flagWords } from './en/flags.ts';
import type { leads } from './en/leads.ts';
import type { others } from './en/others.ts';

/** Takes the very words out of a type and leaves their places: what any language has to fill. */
type Places<T> = T extends string
  ? string
  : T extends (...given: infer Given) => string
    ? (...given: Given) => string
    : T extends (...given: infer Given) => infer Said
      ? (...given: Given) => Said
      : { readonly [Key in keyof T]: Places<T[Key]> };

/** The words of the pages. A language is one catalogue of this shape; a missing word is a type error. */
export type Messages = ForField & ForOthers & ForLeads;
/** The log page and the frame: all that a phone fetches at the bin. */
export type ForField = Places<typeof field>;
/** Everybody's other pages. */
export type ForOthers = Places<typeof others>;
/** Fetched only by whoever coordinates or leads a site. */
export type ForLeads = Places<typeof leads>;
/** Fetched only with the page of flags, which asks for them by name: they are no part of what is always there. */
export type ForFlags = Places<typeof flagWords>;
/** Fetched only with the page that brings an export back. */
export type ForBringBack = Places<typeof bringBackWords>;

/** Fetched with the pages of consents and photos of people only. */
export type ForConsents = Places<typeof consentWords>;

/** The words around numbers, on their own: the sentences lean on how numbers look, so those must not lean on all sentences. */
export type Figures = Places<typeof figures>;
