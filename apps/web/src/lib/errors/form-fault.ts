import type { ErrorCode, Problem } from '@middenry/contract';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';

/** What a form shows when the API refuses. */
export interface FormFault {
  readonly heading: string;
  readonly next?: string;
  readonly faults: readonly FieldFault[];
  readonly number?: string;
}

/** What went wrong and what next; at the bin a browser has fetched only the words of what can go wrong there. */
export const faultWords = (code: ErrorCode) => words.errors[code] ?? words.errors['server-fault'];

/**
 * Turns a problem into words, with each field error led to its field.
 *
 * @param fieldOf id of the field for a JSON pointer of the body; null when it has none
 */
export function faultOf(problem: Problem, fieldOf: (pointer: string) => string | null = () => null): FormFault {
  const known = faultWords(problem.code);
  const faults = (problem.errors ?? []).flatMap((e) => {
    const field = fieldOf(e.pointer);
    return field === null ? [] : [{ field, text: e.message }];
  });
  const detail =
    faults.length === 0 && problem.code === 'invalid' ? (problem.errors ?? []).map((e) => `${e.pointer}: ${e.message}`).join('; ') : '';
  return {
    heading: known.what,
    next: detail === '' ? known.next : detail,
    faults,
    ...(problem.code === 'server-fault' && problem.requestId ? { number: problem.requestId } : {}),
  };
}

/** What a form shows when a field is missing or does not fit. */
export function incomplete(faults: readonly FieldFault[]): FormFault {
  return { heading: words.form.summary, faults };
}
