import { call } from '../api/call.ts';
import type { Answer } from '../api/calls.ts';
import { type FormFault, faultOf } from '../errors/form-fault.ts';

/** An invite that somebody opened: its card, or null when it cannot be used, or what went wrong on the way. */
export interface OpenedInvite {
  readonly secret: string;
  readonly card: Answer<'readInviteCard'> | null;
  readonly fault: FormFault | null;
}

/** Looking at an invite, by a person or a mail scanner, changes nothing: only the press does. */
export async function openInvite(send: typeof fetch, secret: string): Promise<OpenedInvite> {
  const outcome = await call(send, 'readInviteCard', { body: { token: secret } });
  if (outcome.ok) return { secret, card: outcome.data, fault: null };
  return { secret, card: null, fault: outcome.problem.status < 500 ? null : faultOf(outcome.problem) };
}
