import type { BodyOf } from '../api/calls.ts';
import { readCare, readNote, readWorms } from './read-care.ts';
import { type FormContext, type Read, readCheck, readFeeding, readHarvest } from './read-form.ts';

export const ENTRY_KINDS = ['feeding', 'check', 'harvest', 'care', 'note', 'worms'] as const;
export type EntryKind = (typeof ENTRY_KINDS)[number];
/** The three of every visit stand as tabs; the others lie behind the fourth. */
export const MAIN_KINDS = ['feeding', 'check', 'harvest', 'care'] as const satisfies readonly EntryKind[];
export const OTHER_KINDS = ['care', 'note', 'worms'] as const satisfies readonly EntryKind[];

export const CALL_OF = {
  feeding: 'logFeeding',
  check: 'logCheck',
  harvest: 'logHarvest',
  care: 'logCare',
  note: 'logNote',
  worms: 'logWorms',
} as const;
type BodyOfKind = { [K in EntryKind]: BodyOf<(typeof CALL_OF)[K]> };
type Reader<K extends EntryKind> = (form: FormData, ctx: FormContext) => Read<BodyOfKind[K]>;
const READERS: { readonly [K in EntryKind]: Reader<K> } = {
  feeding: readFeeding,
  check: readCheck,
  harvest: readHarvest,
  care: readCare,
  note: readNote,
  worms: readWorms,
};

export function readEntryForm(kind: EntryKind, form: FormData, ctx: FormContext): Read<BodyOfKind[EntryKind]> {
  return READERS[kind](form, ctx);
}
