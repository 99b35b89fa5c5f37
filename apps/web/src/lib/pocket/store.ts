/** What this phone carries for whoever used it last: kept when there is a network, read when there is none. */
import { addressOf } from '../api/call.ts';
import { openPhone, type PocketKept } from '../phone/open.ts';
import type { Pocket } from './types.ts';

const PERSON = 'person';
const OK = 200;
const SAME = 304;

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

/** Fills the pocket anew; nothing happens while the server is out of reach. */
export async function fillPocket(personId: string): Promise<void> {
  const phone = await openPhone();
  const known = await phone.get('pockets', personId);
  const headers: Record<string, string> = { accept: 'application/json' };
  if (known?.etag) headers['if-none-match'] = known.etag;
  const answer = await fetch(addressOf('readPocket'), { headers, cache: 'no-store' }).catch(() => null);
  const checkedAt = new Date().toISOString();
  if (answer?.status === SAME && known) return void (await phone.put('pockets', { ...known, checkedAt }));
  if (answer?.status !== OK || !(answer.headers.get('content-type') ?? '').includes('json')) return;
  const pocket = (await answer.json()) as Pocket;
  // Somebody else may have signed in meanwhile.
  if (pocket.session.person?.id !== personId) return;
  await phone.put('pockets', { personId, pocket, etag: answer.headers.get('etag'), checkedAt });
}
