import { type ActionFailure, fail } from '@sveltejs/kit';
import { call } from '../api/call.ts';
import type { Answer, BodyOf, CallName } from '../api/calls.ts';
import { type FormFault, faultOf } from './form-fault.ts';

export type Typed = Readonly<Record<string, string>>;
type Refused = ActionFailure<{ fault: FormFault; typed: Typed }>;

/** What was typed, so that a refused form keeps it. Passwords are never handed back. */
export function typedOf(form: FormData): Typed {
  const entries = [...form].filter(([name, value]) => typeof value === 'string' && !/password|code|token/i.test(name));
  return Object.fromEntries(entries) as Typed;
}

export const text = (form: FormData, name: string): string => String(form.get(name) ?? '').trim();

/** A field of the same name as the last part of the pointer. */
const sameName = (pointer: string): string | null => pointer.split('/').at(-1) || null;

/** Calls the API for a form: its answer, or the refusal in words with what was typed. */
export async function act<N extends CallName>(
  send: typeof fetch,
  name: N,
  options: {
    readonly params?: Readonly<Record<string, string>>;
    readonly body?: BodyOf<N>;
    readonly ifMatch?: number;
    readonly query?: Readonly<Record<string, string | undefined>>;
  },
  form: FormData,
  fieldOf: (pointer: string) => string | null = sameName,
): Promise<{ ok: true; data: Answer<N> } | { ok: false; refused: Refused }> {
  const outcome = await call(send, name, options);
  if (outcome.ok) return outcome;
  return { ok: false, refused: fail(outcome.problem.status, { fault: faultOf(outcome.problem, fieldOf), typed: typedOf(form) }) };
}
