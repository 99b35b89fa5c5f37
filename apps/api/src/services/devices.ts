import { randomUUID } from 'node:crypto';
import type { Device, DeviceCode, DeviceCodeUse } from '@middenry/contract';
import type * as z from 'zod';
import type { Context, Signed, Who } from '../context.ts';
import {
  type DeviceCodeRow,
  dropDeviceCodes,
  insertDeviceCode,
  liveDeviceCodes,
  noteWrongDeviceCode,
  spendDeviceCode,
} from '../db/repositories/device-code.ts';
import { endSession, findLiveSession, listSessions, type SessionRow } from '../db/repositories/session.ts';
import { write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { personOf } from './people.ts';
import { hashOf, nameOfId, newSixDigits, sameHash } from './secret.ts';
import type { StartedSession } from './session.ts';
import { enter, kindFor } from './sign-in.ts';

const LIFE_MS = 10 * 60_000;
const MOST_TRIES = 5;
/** 900,000 names: a stranger finds the one open request by chance only after more tries than fit into its ten minutes. */
const REQUEST_LENGTH = 4;

/** Where a person is signed in now. */
export function devicesOf(context: Signed, personId: string): z.output<typeof Device>[] {
  return listSessions(context.store, personId, context.now.toISOString()).map(({ id, kind, label, createdAt, lastSeenAt, expiresAt }) => ({
    id,
    personId,
    kind,
    label,
    createdAt,
    lastSeenAt,
    expiresAt,
    here: id === context.who.sessionId,
  }));
}

/** Six digits for one more device of this person; they replace the ones before. */
export function addDeviceCode(context: Signed, personId: string): z.output<typeof DeviceCode> {
  const { store, now } = context;
  return write(store, () => {
    const person = personOf(store, personId);
    if (person.role === 'pupil') throw refuseField('/personId', 'a pupil has a card instead');
    if (person.disabled) throw refuse('not-found');
    const code = newSixDigits();
    const id = randomUUID();
    const expiresAt = new Date(now.getTime() + LIFE_MS).toISOString();
    dropDeviceCodes(store, personId);
    const { personId: createdBy, sessionId } = context.who;
    insertDeviceCode(store, {
      ...{ id, personId, codeHash: hashOf(id, code), createdBy, sessionId, createdAt: now.toISOString(), expiresAt },
    });
    context.audit('device-code-made', personId);
    return { code: `${nameOfId(id, REQUEST_LENGTH)} ${code.slice(0, 3)} ${code.slice(3)}`, expiresAt };
  });
}

/** Signs a device in with the six digits of one request. */
export function useDeviceCode(context: Context, body: z.output<typeof DeviceCodeUse>): StartedSession & { who: Who } {
  return spending(context, body.code, {
    fits: () => true,
    open: ({ personId }) => enter(context, personId, kindFor(personOf(context.store, personId).role), body.deviceLabel),
  });
}

/**
 * Shows that whoever is signed in here is who they say: by a code from their coordinator or from another device of theirs.
 *
 * @throws {Refusal} `code-wrong`, also for a code that was made in this very session
 */
export function showByCode(context: Signed, code: string): void {
  const { personId, sessionId } = context.who;
  spending(context, code, { fits: (row) => row.personId === personId && row.sessionId !== sessionId, open: () => true });
}

/**
 * Spends a code. A wrong try counts against the request that it names, and after five of them that one is dead;
 * whoever does not know which requests are open can kill none.
 */
function spending<T extends object | true>(
  context: Context,
  code: string,
  { fits, open }: { readonly fits: (row: DeviceCodeRow) => boolean; readonly open: (row: DeviceCodeRow) => T },
): T {
  const { store } = context;
  const at = context.now.toISOString();
  const done = write(store, () => {
    const [request, digits] = [code.slice(0, REQUEST_LENGTH), code.slice(REQUEST_LENGTH)];
    const asked = liveDeviceCodes(store, at, MOST_TRIES).filter(({ id }) => nameOfId(id, REQUEST_LENGTH) === request);
    const row = asked.find(({ id, codeHash }) => sameHash(codeHash, hashOf(id, digits)));
    if (row === undefined || !fits(row) || !spendDeviceCode(store, row.id, at)) {
      for (const { id } of asked) noteWrongDeviceCode(store, id);
      context.audit('device-code-refused');
      return null;
    }
    return open(row);
  });
  // Refused outside the transaction, or the count of wrong tries would be taken back with it.
  if (done === null) throw refuse('code-wrong', { detail: 'This code is not right, was used, or has run out; ask for a new one.' });
  return done;
}

export function liveDevice(context: Signed, id: string): SessionRow {
  const session = findLiveSession(context.store, id, context.now.toISOString());
  if (session === undefined) throw refuse('not-found');
  return session;
}

export function endDevice(context: Signed, { id, personId }: SessionRow): void {
  write(context.store, () => {
    endSession(context.store, id, context.now.toISOString());
    context.audit('device-ended', personId);
  });
}
