import { getContext, setContext } from 'svelte';
import { call } from '../api/call.ts';
import type { Answer } from '../api/calls.ts';
import { type FormFault, faultOf } from '../errors/form-fault.ts';

/** A reader's board: null when its link shows nothing (any more), or what went wrong on the way. */
export interface OpenedBoard {
  readonly secret: string;
  readonly board: Answer<'readLinkedBoard'> | null;
  readonly fault: FormFault | null;
}

/** The link is asked again at each look, so that one taken back shows nothing from then on (criteria C16). */
export async function openBoard(send: typeof fetch, secret: string): Promise<OpenedBoard> {
  const outcome = await call(send, 'readLinkedBoard', { body: { token: secret } });
  if (outcome.ok) return { secret, board: outcome.data, fault: null };
  return { secret, board: null, fault: outcome.problem.status < 500 ? null : faultOf(outcome.problem) };
}

const KEY = Symbol('opened board');

/** The frame of a reader's pages opens the link; they show what it opened. */
export function provideOpened(read: () => OpenedBoard | null): void {
  setContext(KEY, read);
}

export function useOpened(): () => OpenedBoard | null {
  return getContext<() => OpenedBoard | null>(KEY);
}
