import { createHash, randomBytes, randomUUID } from 'node:crypto';
import type { Clock, Who } from '../context.ts';
import { sqliteCodeOf } from '../db/fault.ts';
import { endSession, findSession, insertSession, type SessionKind, touchSession } from '../db/repositories/session.ts';
import { type Store, write } from '../db/store.ts';

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const TOKEN_BYTES = 32;

/** How long a session lives, and how long it may lie unused. */
const LIFE = {
  password: { hours: 12, idleMinutes: 30 },
  demo: { hours: 12, idleMinutes: null },
  device: { hours: 30 * 24, idleMinutes: null },
  pupil: { hours: 4, idleMinutes: null },
} as const satisfies Record<SessionKind, { hours: number; idleMinutes: number | null }>;

export interface StartedSession {
  readonly token: string;
  readonly sessionId: string;
  readonly expiresAt: Date;
}

export interface SessionStart {
  readonly personId: string;
  readonly kind: SessionKind;
  readonly label?: string;
  /** Ends earlier than its kind does, such as with the shift. */
  readonly until?: Date;
}

/** Starts a session; the token is in the answer only, the store keeps its hash. */
export function startSession(store: Store, clock: Clock, start: SessionStart): StartedSession {
  const now = clock.now();
  const token = randomBytes(TOKEN_BYTES).toString('base64url');
  const { hours, idleMinutes } = LIFE[start.kind];
  const latest = new Date(now.getTime() + hours * HOUR_MS);
  const expiresAt = start.until !== undefined && start.until < latest ? start.until : latest;
  const sessionId = randomUUID();
  write(store, () =>
    insertSession(store, {
      id: sessionId,
      tokenHash: hashOf(token),
      personId: start.personId,
      kind: start.kind,
      label: start.label ?? '',
      now: now.toISOString(),
      expiresAt: expiresAt.toISOString(),
      idleMinutes,
    }),
  );
  return { token, sessionId, expiresAt };
}

/** Who holds this token now; null when it is unknown, ended, run out, idle for too long, or its person is disabled. */
export function resolveSession(store: Store, now: Date, token: string): Who | null {
  const row = findSession(store, hashOf(token));
  if (row === undefined || row.disabled || row.name === null || row.role === null) return null;
  if (row.endedAt !== null || row.expiresAt <= now.toISOString()) return null;
  const unusedMs = now.getTime() - Date.parse(row.lastSeenAt);
  if (row.idleMinutes !== null && unusedMs > row.idleMinutes * MINUTE_MS) return null;
  // Once a minute is exact enough for idling and keeps reading free of writing.
  if (unusedMs > MINUTE_MS) noteSeen(store, row.id, now);
  return {
    personId: row.personId,
    name: row.name,
    role: row.role,
    owner: row.owner,
    isAdult: row.isAdult,
    siteIds: row.siteIds,
    sessionId: row.id,
    sessionKind: row.kind,
    secondStepMissing: row.role === 'coordinator' && !row.inDemo && !row.hasSecondStep,
  };
}

/** Whether whoever held this token was erased: their phone is told so, and stops sending what it still holds. */
export const isErased = (store: Store, token: string): boolean => findSession(store, hashOf(token))?.name === null;

/** A full disk must not keep anybody from reading. */
function noteSeen(store: Store, sessionId: string, now: Date): void {
  try {
    write(store, () => touchSession(store, sessionId, now.toISOString()));
  } catch (error) {
    if (sqliteCodeOf(error) === '') throw error;
  }
}

export function stopSession(store: Store, sessionId: string, now: Date): void {
  write(store, () => endSession(store, sessionId, now.toISOString()));
}

const hashOf = (token: string): string => createHash('sha256').update(token).digest('hex');
