/** What a test does on a phone: notes put into its store as the form puts them there, and what the server has of them. */
import type { BrowserContext, Page } from 'playwright-core';

export interface Noted {
  readonly personId: string;
  readonly binId: string;
  readonly note: string;
  /** Left out: now. */
  readonly keptAt?: string;
  readonly happenedAt?: string;
  readonly zone?: number;
}

/** Puts notes into the phone's store, each in a transaction of its own, and tells the page as the form does. */
export function putOnPhone(page: Page, noted: readonly Noted[]): Promise<string[]> {
  return page.evaluate(async (all) => {
    const request = indexedDB.open('middenry');
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
    const ids: string[] = [];
    for (const one of all) {
      const at = Date.now().toString(16).padStart(12, '0');
      const chance = crypto.randomUUID();
      const id = `${at.slice(0, 8)}-${at.slice(8)}-7${chance.slice(15)}`;
      const happenedAt = one.happenedAt ?? new Date(Date.now() - 60_000).toISOString();
      const feeding = { zone: one.zone, items: [{ materialId: 'apple', massKg: 0.2, how: 'weighed' }] };
      const { personId, binId, note } = one;
      const tx = db.transaction('entries', 'readwrite', { durability: 'strict' });
      tx.objectStore('entries').put({
        ...{ id, kind: one.zone === undefined ? 'note' : 'feeding', personId, binId, binCode: 'T1', problem: null },
        body: { id, binId, happenedAt, note, ...(one.zone === undefined ? {} : feeding) },
        keptAt: one.keptAt ?? new Date().toISOString(),
      });
      await new Promise((resolve, reject) => {
        tx.oncomplete = resolve;
        tx.onabort = reject;
      });
      ids.push(id);
    }
    db.close();
    dispatchEvent(new Event('online'));
    return ids;
  }, noted);
}

function readPhone(page: Page, store: 'entries' | 'pockets'): Promise<unknown[]> {
  return page.evaluate(async (name) => {
    const request = indexedDB.open('middenry');
    const db = await new Promise<IDBDatabase>((resolve) => {
      request.onsuccess = () => resolve(request.result);
    });
    const all = db.transaction(name).objectStore(name).getAll();
    await new Promise((resolve) => {
      all.onsuccess = resolve;
    });
    db.close();
    return all.result;
  }, store);
}

/** The words of everything that the phone still keeps, in order. */
export const onPhone = async (page: Page): Promise<string[]> =>
  ((await readPhone(page, 'entries')) as { body: { note: string } }[]).map(({ body }) => body.note);

/** How many people's pockets the phone carries. */
export const carried = async (page: Page): Promise<number> => (await readPhone(page, 'pockets')).length;

/** What the server's log of a bin says, oldest note first as it received them. */
export async function atServer(context: BrowserContext, binId: string, beginning: string): Promise<string[]> {
  const { items } = await (await context.request.get(`/api/bins/${binId}/entries?limit=200`)).json();
  return (items as { note: string; receivedAt: string; happenedAt: string }[])
    .filter(({ note }) => note.startsWith(beginning))
    .sort((a, b) => a.happenedAt.localeCompare(b.happenedAt))
    .map(({ note }) => note);
}

export async function whoIsHere(context: BrowserContext): Promise<string> {
  return (await (await context.request.get('/api/session')).json()).person.id;
}
