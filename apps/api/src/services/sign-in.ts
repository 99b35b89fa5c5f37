import { createHash } from 'node:crypto';
import type { Role } from '@middenry/contract';
import type { Context, Signed, Who } from '../context.ts';
import { listCredentials, renewPassword } from '../db/repositories/credential.ts';
import { findPerson, findPersonByEmail, firstInRole, type PersonRow } from '../db/repositories/person.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import { clearTries, findTries, noteFailure } from '../db/repositories/sign-in-try.ts';
import { write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { hashPassword, isCheaper, passwordMatches } from './password.ts';
import { hasSecondStep, secondStepOpens } from './second-step.ts';
import { resolveSession, type StartedSession, startSession, stopSession } from './session.ts';

const FREE_TRIES = 3;
const FIRST_WAIT_S = 30;
const LONGEST_WAIT_S = 3600;
/** After this many failures an account opens again only when its owner resets it on the server. */
const HARD_STOP = 100;
const SECOND_MS = 1000;

export interface PasswordSignIn {
  readonly email: string;
  readonly password: string;
  readonly code?: string | undefined;
}

/** Whoever holds this e-mail address and password, or one and the same refusal for every reason. */
export async function personByPassword(context: Context, { email, password, code }: PasswordSignIn): Promise<PersonRow> {
  const account = email.trim().toLowerCase();
  return shown(context, { account, person: findPersonByEmail(context.store, account), password, code });
}

/** Shows once more that whoever is signed in is who they say, by their password and second step. */
export async function showByPassword(context: Signed, secrets: Pick<PasswordSignIn, 'password' | 'code'>): Promise<void> {
  const person = findPerson(context.store, context.who.personId);
  await shown(context, { account: person?.email ?? context.who.personId, person, ...secrets });
}

interface Claim extends Pick<PasswordSignIn, 'password' | 'code'> {
  /** Tries are counted against it. */
  readonly account: string;
  readonly person: PersonRow | undefined;
}

async function shown(context: Context, { account, person, password, code }: Claim): Promise<PersonRow> {
  const accountHash = accountHashOf(account);
  refuseTooSoon(context, accountHash);
  const usable = person !== undefined && !person.disabled ? person : undefined;
  const stored = usable === undefined ? null : (listCredentials(context.store, usable.id, 'password')[0]?.secret ?? null);
  const matches = await passwordMatches(stored, password);
  const refused = usable === undefined || !matches ? 'wrong-sign-in' : secondStepRefusal(context, usable.id, code);
  if (refused === 'second-step') throw refuse(refused);
  const renewed = refused === null && stored !== null && isCheaper(stored) ? await hashPassword(password) : null;
  write(context.store, () => {
    if (refused === null) {
      if (renewed !== null && usable !== undefined) renewPassword(context.store, usable.id, renewed);
      return clearTries(context.store, accountHash);
    }
    noteFailure(context.store, accountHash, context.now.toISOString());
    context.audit('sign-in-refused', usable?.id ?? '', { code: refused });
  });
  if (usable === undefined || refused !== null) throw refuse(refused ?? 'wrong-sign-in');
  return usable;
}

/** Under which tries to sign in are counted, so that no address is kept for it. */
export const accountHashOf = (account: string): string => createHash('sha256').update(account).digest('hex');

function secondStepRefusal(context: Context, personId: string, code: string | undefined): 'second-step' | 'code-wrong' | null {
  if (!hasSecondStep(context.store, personId)) return null;
  if (code === undefined) return 'second-step';
  return write(context.store, () => secondStepOpens(context, personId, code)) ? null : 'code-wrong';
}

/** A coordinator's session is short on every device; everybody else's lasts a month on theirs. */
export const kindFor = (role: Role): 'password' | 'device' => (role === 'coordinator' ? 'password' : 'device');

/** The wait grows with each failure and is the same for accounts that do not exist. */
export function waitSeconds(failures: number): number {
  if (failures < FREE_TRIES) return 0;
  return Math.min(LONGEST_WAIT_S, FIRST_WAIT_S * 2 ** (failures - FREE_TRIES));
}

function refuseTooSoon(context: Context, accountHash: string): void {
  const tries = findTries(context.store, accountHash);
  if (tries === undefined) return;
  const passedS = (context.now.getTime() - Date.parse(tries.lastFailureAt)) / SECOND_MS;
  const left = tries.failures >= HARD_STOP ? LONGEST_WAIT_S : Math.ceil(waitSeconds(tries.failures) - passedS);
  if (left > 0) throw refuse('wait', { retryAfterSeconds: left });
}

/** One tap into the demonstration, where it is open. */
export function enterDemo(context: Context, as: 'coordinator' | 'volunteer'): StartedSession & { who: Who } {
  if (!context.config.demoEntry || !findProgramme(context.store)?.isDemo) throw refuse('only-in-demo');
  const person = firstInRole(context.store, as);
  if (person === undefined) throw refuse('not-found');
  if (context.who !== null) stopSession(context.store, context.who.sessionId, context.now);
  return enter(context, person.id, 'demo');
}

/** Starts a session for somebody who has shown who they are; whatever session the device held before ends. */
export function enter(context: Context, personId: string, kind: 'password' | 'device' | 'demo', label = ''): StartedSession & { who: Who } {
  return write(context.store, () => {
    const started = startSession(context.store, context.clock, { personId, kind, label });
    const who = resolveSession(context.store, context.now, started.token);
    if (who === null) throw refuse('wrong-sign-in');
    context.audit('signed-in', personId, { kind });
    return { ...started, who };
  });
}
