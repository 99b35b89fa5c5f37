import { createHash } from 'node:crypto';
import { insertAudit } from '../db/repositories/audit.ts';
import { deleteCredentials, insertCredential } from '../db/repositories/credential.ts';
import { listPersons, type PersonRow, updatePerson } from '../db/repositories/person.ts';
import { endSessionsOf } from '../db/repositories/session.ts';
import { clearTries } from '../db/repositories/sign-in-try.ts';
import { type Store, write } from '../db/store.ts';
import { StartRefusal } from '../start-refusal.ts';
import { hashPassword } from './password.ts';

/** Lets an owner back in from the server's own console, where whoever sits could change the file anyway. */
export async function resetOwner(
  store: Store,
  now: Date,
  email: string | undefined,
  password: string,
): Promise<{ name: string; email: string }> {
  const owner = ownerBy(store, email);
  const secret = await hashPassword(password);
  const at = now.toISOString();
  write(store, () => {
    for (const kind of ['password', 'totp', 'recovery'] as const) deleteCredentials(store, owner.id, kind);
    insertCredential(store, { personId: owner.id, kind: 'password', secret, createdAt: at });
    updatePerson(store, owner.id, { disabled: false });
    endSessionsOf(store, owner.id, at);
    clearTries(store, createHash('sha256').update(owner.email).digest('hex'));
    insertAudit(store, { at: now, personId: null, action: 'owner-reset', subject: owner.id, detail: {}, requestId: '' });
  });
  return { name: owner.name, email: owner.email };
}

function ownerBy(store: Store, email: string | undefined): PersonRow & { readonly email: string } {
  const owners = listPersons(store).filter(({ owner }) => owner);
  const found = email === undefined ? owners : owners.filter((one) => one.email === email.trim().toLowerCase());
  const names = owners.map((one) => `${one.name} (${one.email ?? 'no e-mail'})`).join(', ');
  if (found.length !== 1) throw new StartRefusal(`Cannot tell which owner is meant: name one by e-mail. Owners are ${names || 'nobody'}.`);
  const { email: address } = found[0]!;
  if (address === null) throw new StartRefusal(`Cannot reset ${found[0]!.name} as they have no e-mail address to sign in with.`);
  return { ...found[0]!, email: address };
}
