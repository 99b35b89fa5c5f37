import type { Signed } from '../context.ts';
import { deleteCredentials, insertCredential, listCredentials } from '../db/repositories/credential.ts';
import { endOtherSessions } from '../db/repositories/session.ts';
import { write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { hashNewPassword } from './new-password.ts';
import { passwordMatches } from './password.ts';

interface Change {
  readonly current?: string | undefined;
  readonly password: string;
}

/** Sets a new password; every other device of this person must sign in again. */
export async function changePassword(context: Signed, { current, password }: Change): Promise<void> {
  const { personId, sessionId } = context.who;
  const stored = listCredentials(context.store, personId, 'password')[0]?.secret ?? null;
  if (stored !== null && !(await passwordMatches(stored, current ?? ''))) throw refuse('wrong-sign-in');
  const secret = await hashNewPassword(password, [context.who.name]);
  write(context.store, () => {
    const at = context.now.toISOString();
    deleteCredentials(context.store, personId, 'password');
    insertCredential(context.store, { personId, kind: 'password', secret, createdAt: at });
    endOtherSessions(context.store, personId, sessionId, at);
    context.audit('password-changed', personId);
  });
}
