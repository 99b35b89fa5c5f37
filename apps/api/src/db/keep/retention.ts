import { isBelievable } from '../clock-sense.ts';
import { dropChangesBefore, lastChangeId } from '../repositories/change.ts';

import { type Store, write } from '../store.ts';

const CHANGES_KEPT = 10_000;

/** What is kept for how many days; the policy page is written from this list too. */
export const RETENTION = [
  {
    what: 'sign-in sessions that have ended or run out',
    days: 90,
    sql: 'DELETE FROM sign_in_session WHERE ifnull(ended_at, expires_at) < ?',
  },
  {
    what: 'invites that were used, taken back or have run out',
    days: 14,
    sql: 'DELETE FROM invite WHERE coalesce(used_at, revoked_at, expires_at) < ?',
  },
  { what: 'six-digit codes', days: 1, sql: 'DELETE FROM device_code WHERE expires_at < ?' },
  { what: 'failed sign-ins', days: 30, sql: 'DELETE FROM sign_in_try WHERE last_failure_at < ?' },
  { what: 'the audit', days: 366, sql: 'DELETE FROM audit WHERE at < ?' },
  { what: 'runs that filled gaps in the rota', days: 366, sql: 'DELETE FROM rota_run WHERE made_at < ?' },
  {
    what: 'ids of entries already taken, for phones that were long offline',
    days: 400,
    sql: 'DELETE FROM applied_client_id WHERE applied_at < ?',
  },
  { what: 'messages and mail, with the addresses it went to', days: 90, sql: 'DELETE FROM message WHERE made_at < ?' },
  { what: 'six-digit codes and tests sent by mail', days: 30, sql: "DELETE FROM mail WHERE kind <> 'message' AND made_at < ?" },
] as const;

/** Clears away what has been kept long enough; gives how many rows. */
export function clearAway(store: Store, now: Date): number {
  if (!isBelievable(now)) return 0;
  return write(store, () => {
    let cleared = 0;
    for (const { days, sql } of RETENTION) {
      const before = new Date(now);
      before.setUTCDate(before.getUTCDate() - days);
      cleared += store.sql(sql).run(before.toISOString()).changes;
    }
    dropChangesBefore(store, lastChangeId(store) - CHANGES_KEPT);
    return cleared;
  });
}
