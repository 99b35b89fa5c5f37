/** Somebody's data taken out in one transaction; what they noted stays, under nobody's name (criteria C27). */
import type { ErasureProof } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../../context.ts';
import { listCredentials } from '../../db/repositories/credential.ts';
import { erasePerson, forgetName } from '../../db/repositories/erasure.ts';
import { countOwners, type PersonRow } from '../../db/repositories/person.ts';
import { clearTries } from '../../db/repositories/sign-in-try.ts';
import { write } from '../../db/store.ts';
import { photoDirOf, takeAwayNow } from '../../photos/shelf.ts';
import { refuse, refuseField } from '../../refusal.ts';
import { showByCode } from '../devices.ts';
import { giveUpAllOf } from '../leaving.ts';
import { personOf } from '../people.ts';
import { accountHashOf, showByPassword } from '../sign-in.ts';
import { keepErasures } from './keep-erasures.ts';

/** Whoever erases themselves shows first, once more, that it is them. */
export async function eraseMe(call: Signed, { password, code }: z.output<typeof ErasureProof>): Promise<void> {
  const { store, who } = call;
  // The people of the demonstration are everybody's who looks round in it.
  if (who.sessionKind === 'demo') throw refuse('not-in-demo');
  if (listCredentials(store, who.personId, 'password').length > 0) {
    if (password === undefined) throw refuseField('/password', 'is needed');
    await showByPassword(call, { password, code });
  } else if (code === undefined) throw refuseField('/code', 'is needed');
  else showByCode(call, code);
  erase(call, who.personId);
}

/** Somebody who asked a coordinator for it, or a pupil whose guardian or school did. */
export function eraseOther(call: Signed, id: string): void {
  const person = personOf(call.store, id);
  if (id === call.who.personId)
    throw refuse('not-allowed', { detail: 'Erase yourself by POST /api/me/erased, which asks who you are once more.' });
  if (person.owner && !call.who.owner) throw refuse('not-allowed', { detail: 'Only an owner erases another owner.' });
  erase(call, id);
}

export function erase(call: Signed, id: string, action = 'person-erased'): void {
  const { store, now, config } = call;
  const files = write(store, () => {
    const person = personOf(store, id);
    const placesGivenBack = giveUpAllOf(call, id);
    forgetElsewhere(call, person);
    const photos = erasePerson(store, id, now.toISOString());
    if (countOwners(store) === 0) throw refuse('last-owner');
    call.audit(action, id, { role: person.role, placesGivenBack, photosDeleted: photos.length });
    return photos;
  });
  takeAwayNow(photoDirOf(config), files);
  keepErasures(call);
}

/** Where a name stands without its person, and what was counted against their account. */
function forgetElsewhere({ store }: Signed, { id, name, email }: PersonRow): void {
  forgetName(store, { id, name });
  for (const account of [id, ...(email === null ? [] : [email])]) clearTries(store, accountHashOf(account));
}
