import type { Entry } from '../bin/types.ts';
import { bodyWords, massKgOf } from './body-words.ts';
import type { EntryKind } from './entry-kinds.ts';
import { readEntryForm } from './read-entry.ts';
import type { FormContext, FormFaults } from './read-form.ts';
import { usualMassKg } from './usual-mass.ts';

/** So far beyond what is usual that a slip is likelier (criteria B7). */
const TIMES_USUAL = 5;
type Body = Extract<ReturnType<typeof readEntryForm>, { readonly ok: true }>['body'];
export type Judged =
  | { readonly is: 'wrong'; readonly read: FormFaults }
  | { readonly is: 'unusual'; readonly mass: string; readonly usual: string }
  | { readonly is: 'good'; readonly body: Body; readonly what: string };

/** What to do with a form when Save is pressed: say what is wrong, ask once whether it is meant, or note it. */
export function judge(
  kind: EntryKind,
  form: FormData,
  { ctx, entries, sure }: { ctx: FormContext; entries: readonly Entry[]; sure: boolean },
): Judged {
  const read = readEntryForm(kind, form, ctx);
  if (!read.ok) return { is: 'wrong', read };
  const massKg = massKgOf(read.body);
  const usualKg = usualMassKg(entries, kind);
  if (!sure && usualKg !== null && massKg > TIMES_USUAL * usualKg)
    return { is: 'unusual', mass: ctx.format.massExact(massKg), usual: ctx.format.mass(usualKg) };
  return { is: 'good', body: read.body, what: `${bodyWords(kind, read.body, ctx.format)}.` };
}
