/** What this phone carries for whoever used it last: kept when there is a network, read when there is none. */
import { addressOf } from '../api/call.ts';
import { openPhone, type Phone, type PocketKept } from '../phone/open.ts';
import type { Pocket } from './types.ts';

const PERSON = 'person';
const OK = 200;
const SAME = 304;
const AWAY = 500;

/** The pocket of whoever was signed in when the server was last heard of. */
export async function lastPocket(): Promise<PocketKept | undefined> {
  const phone = await openPhone();
  const personId = await phone.get('facts', PERSON);
  return personId === undefined ? undefined : phone.get('pockets', personId);
}

/** Remembers who is signed in. With nobody there, what was carried goes; what waits to be sent stays, sealed for its author. */
export async function rememberPerson(personId: string | null): Promise<void> {
  const phone = await openPhone();
  const tx = phone.transaction(['facts', 'pockets'], 'readwrite', { durability: 'strict' });
  if (personId === null) {
    await tx.objectStore('facts').delete(PERSON);
    await tx.objectStore('pockets').clear();
  } else {
    await tx.objectStore('facts').put(personId, PERSON);
  }
  await tx.done;
}

/**
 * Fills the pocket anew.
 *
 * @returns false when the server was out of reach or busy, so that it is to be tried again
 */
export async function fillPocket(personId: string): Promise<boolean> {
  const phone = await openPhone();
  const known = await phone.get('pockets', personId);
  const headers: Record<string, string> = { accept: 'application/json' };
  if (known?.etag) headers['if-none-match'] = known.etag;
  const answer = await fetch(addressOf('readPocket'), { headers, cache: 'no-store' }).catch(() => null);
  const checkedAt = new Date().toISOString();
  if (answer?.status === SAME && known) return put(phone, { ...known, checkedAt });
  if (answer === null || answer.status >= AWAY) return false;
  if (answer.status !== OK) return true;
  // A network may answer with a page of its own, and an answer may break off.
  const isJson = (answer.headers.get('content-type') ?? '').includes('json');
  const pocket: Pocket | null = isJson ? await answer.json().catch(() => null) : null;
  if (pocket === null) return false;
  // Somebody else may have signed in meanwhile.
  if (pocket.session.person?.id !== personId) return true;
  return put(phone, { personId, pocket, etag: answer.headers.get('etag'), checkedAt });
}

async function put(phone: Phone, kept: PocketKept): Promise<true> {
  const tx = phone.transaction('pockets', 'readwrite', { durability: 'strict' });
  await tx.store.put(kept);
  await tx.done;
  return true;
}
