import { call } from '../api/call.ts';
import type { Answer } from '../api/calls.ts';
import { type FormFault, faultOf } from '../errors/form-fault.ts';

/** The link of a mail that somebody opened: what it is about, or null when it opens nothing, or what went wrong on the way. */
export interface OpenedReply {
  readonly secret: string;
  readonly reply: Answer<'readReply'> | null;
  readonly fault: FormFault | null;
}

/** Looking, by a person or a mail scanner, changes nothing: only a press does. */
export async function openReply(send: typeof fetch, secret: string): Promise<OpenedReply> {
  const outcome = await call(send, 'readReply', { body: { token: secret } });
  if (outcome.ok) return { secret, reply: outcome.data, fault: null };
  return { secret, reply: null, fault: outcome.problem.status < 500 ? null : faultOf(outcome.problem) };
}
