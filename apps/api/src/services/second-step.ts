import type { Context, Signed } from '../context.ts';
import {
  deleteCredentials,
  insertCredential,
  listCredentials,
  markTotpOn,
  noteTotpStep,
  useCredential,
} from '../db/repositories/credential.ts';
import { findPerson } from '../db/repositories/person.ts';
import { type Store, write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { passwordMatches } from './password.ts';
import { hashOf, newCode } from './secret.ts';
import { newTotpSecret, otpauthUri, totpStep } from './totp.ts';

const RECOVERY_CODES = 10;
const RECOVERY_LENGTH = 10;

/** An authenticator counts once its first code has come back. */
const activeTotp = (store: Store, personId: string) => listCredentials(store, personId, 'totp').find(({ usedAt }) => usedAt !== null);

export const hasSecondStep = (store: Store, personId: string): boolean => activeTotp(store, personId) !== undefined;

export function startTotp(context: Signed) {
  return write(context.store, () => {
    const { personId } = context.who;
    if (hasSecondStep(context.store, personId)) throw refuse('code-spent', { detail: 'A second step is on already; turn it off first.' });
    deleteCredentials(context.store, personId, 'totp');
    const secret = newTotpSecret();
    insertCredential(context.store, { personId, kind: 'totp', secret, createdAt: context.now.toISOString() });
    return { secret, uri: otpauthUri(secret, findPerson(context.store, personId)?.email ?? context.who.name) };
  });
}

/** Turns it on with its first code, and gives ten ways in for the day when the phone is lost. */
export function confirmTotp(context: Signed, code: string): { recoveryCodes: string[] } {
  return write(context.store, () => {
    const { personId } = context.who;
    const waiting = listCredentials(context.store, personId, 'totp').find(({ usedAt }) => usedAt === null);
    const step = waiting === undefined ? null : totpStep(waiting.secret, code, context.now, null);
    if (waiting === undefined || step === null) throw refuse('code-wrong');
    const at = context.now.toISOString();
    markTotpOn(context.store, waiting.id, step, at);
    deleteCredentials(context.store, personId, 'recovery');
    const recoveryCodes = Array.from({ length: RECOVERY_CODES }, () => newCode(RECOVERY_LENGTH));
    for (const one of recoveryCodes) insertCredential(context.store, { personId, kind: 'recovery', secret: hashOf(one), createdAt: at });
    context.audit('second-step-on', personId);
    return { recoveryCodes };
  });
}

export async function endTotp(context: Signed, password: string): Promise<void> {
  const { personId } = context.who;
  const stored = listCredentials(context.store, personId, 'password')[0]?.secret ?? null;
  if (!(await passwordMatches(stored, password))) throw refuse('wrong-sign-in');
  write(context.store, () => {
    deleteCredentials(context.store, personId, 'totp');
    deleteCredentials(context.store, personId, 'recovery');
    context.audit('second-step-off', personId);
  });
}

/** Whether this opens the second step of a person: a code of the authenticator, or a recovery code, each good once. */
export function secondStepOpens(context: Context, personId: string, typed: string): boolean {
  const totp = activeTotp(context.store, personId);
  if (totp === undefined) return true;
  const code = typed.toUpperCase().replace(/[\s-]/g, '');
  const step = totpStep(totp.secret, code, context.now, totp.lastStep);
  if (step !== null) {
    noteTotpStep(context.store, totp.id, step);
    return true;
  }
  const recovery = listCredentials(context.store, personId, 'recovery').find(
    ({ secret, usedAt }) => usedAt === null && secret === hashOf(code),
  );
  if (recovery === undefined || !useCredential(context.store, recovery.id, context.now.toISOString())) return false;
  context.audit('recovery-code-used', personId);
  return true;
}
