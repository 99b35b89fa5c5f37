import type { Problem } from '@middenry/contract';
import type { Entry } from '../bin/types.ts';

/** What happens to entries on this phone, told to every page of it. */
export type News =
  | { readonly kind: 'kept' | 'dropped'; readonly id: string }
  | { readonly kind: 'sent'; readonly id: string; readonly entry: Entry | null }
  | { readonly kind: 'refused'; readonly id: string; readonly problem: Problem }
  | { readonly kind: 'carried' }
  | { readonly kind: 'state'; readonly state: 'idle' | 'sending' | 'away' | 'sign-in' | 'update' };

const listeners = new Set<(news: News) => void>();
let others: BroadcastChannel | null | undefined;

/** Old browsers have no channel between tabs; then each tab knows what it did itself, and the store knows the rest. */
function otherTabs(): BroadcastChannel | null {
  if (others !== undefined) return others;
  others = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('middenry-outbox');
  others?.addEventListener('message', ({ data }) => hear(data as News));
  return others;
}

function hear(news: News): void {
  for (const listener of listeners) listener(news);
}

/** @returns How to stop listening */
export function listen(listener: (news: News) => void): () => void {
  listeners.add(listener);
  otherTabs();
  return () => void listeners.delete(listener);
}

export function tell(news: News): void {
  hear(news);
  otherTabs()?.postMessage(news);
}
