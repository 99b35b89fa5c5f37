import type { Store } from '../store.ts';

export type SessionKind = 'password' | 'device' | 'pupil' | 'demo';

export interface SessionWithPerson {
  readonly id: string;
  readonly kind: SessionKind;
  readonly personId: string;
  readonly lastSeenAt: string;
  readonly expiresAt: string;
  readonly idleMinutes: number | null;
  readonly endedAt: string | null;
  readonly name: string | null;
  readonly owner: boolean;
  readonly disabled: boolean;
  readonly isAdult: boolean;
  readonly role: 'pupil' | 'volunteer' | 'site-lead' | 'coordinator' | null;
  readonly siteIds: readonly string[];
  readonly hasSecondStep: boolean;
  readonly inDemo: boolean;
}

const FIND = `SELECT s.id, s.kind, s.person_id AS personId, s.last_seen_at AS lastSeenAt, s.expires_at AS expiresAt,
    s.idle_minutes AS idleMinutes, s.ended_at AS endedAt, p.name, p.owner, p.disabled, p.is_adult AS isAdult,
    (SELECT role FROM membership WHERE person_id = p.id LIMIT 1) AS role,
    EXISTS (SELECT 1 FROM credential WHERE person_id = p.id AND kind = 'totp' AND used_at IS NOT NULL) AS hasSecondStep,
    (SELECT is_demo FROM programme LIMIT 1) AS inDemo,
    (SELECT json_group_array(site_id) FILTER (WHERE site_id IS NOT NULL) FROM membership WHERE person_id = p.id) AS siteIds
  FROM sign_in_session s JOIN person p ON p.id = s.person_id WHERE s.token_hash = ?`;

/** One question for everything that decides what a request may do; it is asked on every request. */
export function findSession(store: Store, tokenHash: string): SessionWithPerson | undefined {
  const row = store.sql(FIND).get(tokenHash) as (Omit<SessionWithPerson, 'siteIds'> & { siteIds: string }) | undefined;
  if (row === undefined) return undefined;
  return {
    ...row,
    owner: Boolean(row.owner),
    disabled: Boolean(row.disabled),
    isAdult: Boolean(row.isAdult),
    hasSecondStep: Boolean(row.hasSecondStep),
    inDemo: Boolean(row.inDemo),
    siteIds: JSON.parse(row.siteIds) as string[],
  };
}

export interface SessionNewRow {
  readonly id: string;
  readonly tokenHash: string;
  readonly personId: string;
  readonly kind: SessionKind;
  readonly label: string;
  readonly now: string;
  readonly expiresAt: string;
  readonly idleMinutes: number | null;
}

export function insertSession(store: Store, row: SessionNewRow): void {
  store
    .sql(
      `INSERT INTO sign_in_session (id, token_hash, person_id, kind, label, created_at, last_seen_at, expires_at, idle_minutes)
       VALUES (@id, @tokenHash, @personId, @kind, @label, @now, @now, @expiresAt, @idleMinutes)`,
    )
    .run(row);
}

export function touchSession(store: Store, id: string, at: string): void {
  store.sql('UPDATE sign_in_session SET last_seen_at = ? WHERE id = ?').run(at, id);
}

export function endSession(store: Store, id: string, at: string): void {
  store.sql('UPDATE sign_in_session SET ended_at = ? WHERE id = ? AND ended_at IS NULL').run(at, id);
}

export function endSessionsOf(store: Store, personId: string, at: string): void {
  store.sql('UPDATE sign_in_session SET ended_at = ? WHERE person_id = ? AND ended_at IS NULL').run(at, personId);
}

export interface SessionRow {
  readonly id: string;
  readonly personId: string;
  readonly kind: SessionKind;
  readonly label: string;
  readonly createdAt: string;
  readonly lastSeenAt: string;
  readonly expiresAt: string;
}

const LIST = `SELECT id, person_id AS personId, kind, label, created_at AS createdAt, last_seen_at AS lastSeenAt, expires_at AS expiresAt
  FROM sign_in_session WHERE ended_at IS NULL AND expires_at > ?`;

/** Sessions of a person that still open something, the one used last first. */
export function listSessions(store: Store, personId: string, at: string): readonly SessionRow[] {
  return store.sql(`${LIST} AND person_id = ? ORDER BY last_seen_at DESC, id`).all(at, personId) as SessionRow[];
}

export function findLiveSession(store: Store, id: string, at: string): SessionRow | undefined {
  return store.sql(`${LIST} AND id = ?`).get(at, id) as SessionRow | undefined;
}

export function endOtherSessions(store: Store, personId: string, keepId: string, at: string): void {
  store.sql('UPDATE sign_in_session SET ended_at = ? WHERE person_id = ? AND id <> ? AND ended_at IS NULL').run(at, personId, keepId);
}
