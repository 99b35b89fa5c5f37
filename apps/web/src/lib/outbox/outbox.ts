/** What is noted at a bin goes here first. It is on the phone before anybody says "saved", and leaves only when the server has it. */
import { type Draft, type Kept, openPhone } from '../phone/open.ts';
import { tell } from './news.ts';

/** The promise of a transaction that is really on the disk, where the browser can give it. */
const STRICT = { durability: 'strict' } as const;

export interface NewKept extends Pick<Kept, 'kind' | 'body' | 'personId' | 'binId' | 'binCode'> {
  /** The draft that became this entry; it goes in the same transaction. */
  readonly draft?: string;
}

/**
 * Keeps an entry on this phone. Only when this resolves may a page say that it is saved.
 *
 * Kept a second time under the same id it takes the place of the first, so that a second tap makes no second entry.
 */
export async function keepEntry({ draft, ...entry }: NewKept): Promise<void> {
  const tx = (await openPhone()).transaction(['entries', 'drafts'], 'readwrite', STRICT);
  const entries = tx.objectStore('entries');
  const there = await entries.index('id').getKey(entry.body.id);
  // A phone keeps what its own store can copy; what a form made is not always that.
  const body = JSON.parse(JSON.stringify(entry.body)) as Kept['body'];
  const kept = { ...entry, body, id: body.id, keptAt: new Date().toISOString(), problem: null };
  await entries.put(there === undefined ? kept : { ...kept, seq: there });
  if (draft !== undefined) await tx.objectStore('drafts').delete(draft);
  await tx.done;
  tell({ kind: 'kept', id: body.id });
}

/**
 * Takes back what is still on the phone.
 *
 * @returns false when the server has it already, and taking back is to be asked there
 */
export async function takeBack(id: string): Promise<boolean> {
  const { quietly } = await import('./one-sender.ts');
  return quietly(async () => {
    const tx = (await openPhone()).transaction('entries', 'readwrite', STRICT);
    const seq = await tx.store.index('id').getKey(id);
    if (seq !== undefined) await tx.store.delete(seq);
    await tx.done;
    if (seq !== undefined) tell({ kind: 'dropped', id });
    return seq !== undefined;
  });
}

export const draftKey = (personId: string, binId: string, kind: string): string => `${personId} ${binId} ${kind}`;

export async function readDraft(key: string): Promise<Draft | undefined> {
  return (await openPhone()).get('drafts', key);
}

/** Keeps what is typed so far; call it as it is typed. */
export async function writeDraft(key: string, draft: Pick<Draft, 'id' | 'fields'>): Promise<void> {
  await (await openPhone()).put('drafts', { ...draft, at: new Date().toISOString() }, key);
}

export async function dropDraft(key: string): Promise<void> {
  await (await openPhone()).delete('drafts', key);
}
