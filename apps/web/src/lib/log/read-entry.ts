import type { BodyOf } from '../api/calls.ts';
import type { CALL_OF, EntryKind } from './entry-kinds.ts';
import { readCare, readNote, readWorms } from './read-care.ts';
import { type FormContext, type Read, readCheck, readFeeding } from './read-form.ts';
import { readHarvest } from './read-harvest.ts';

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
