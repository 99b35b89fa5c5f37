import { isBelievable } from '../clock-sense.ts';
import { insertAudit } from '../repositories/audit.ts';
import { dropChangesBefore, lastChangeId } from '../repositories/change.ts';
import { erasePerson } from '../repositories/erasure.ts';
import { deleteHiddenBefore } from '../repositories/photo-people.ts';
import { pupilsLastHereBefore } from '../repositories/pupil-stay.ts';
import { type Store, write } from '../store.ts';

const CHANGES_KEPT = 10_000;

export interface Kept {
  /** What is kept, by the key under which the page about it has words. */
  readonly key: string;
  readonly days: number;
  /** Clears away what is older than an instant; gives how many rows. */
  readonly clear: (store: Store, before: string, now: Date) => number;
}

const statement =
  (sql: string): Kept['clear'] =>
  (store, before) =>
    store.sql(sql).run(before).changes;

/** Faults of rows that were refused hold what was typed, names among it; how many there were stays. */
const FORGET_REFUSED = `UPDATE sheet_import SET refused = json_object(
    'again', json_extract(refused, '$.again'),
    'refused', (SELECT json_group_array(json_object('row', json_extract(value, '$.row'), 'state', 'refused', 'faults', json('[]')))
      FROM json_each(sheet_import.refused, '$.refused')))
  WHERE done_at < ? AND json_type(refused) = 'object' AND refused LIKE '%"value"%'`;

/** What is kept for how many days; the page about privacy is written from this list too (criteria C26). */
export const RETENTION = [
  { key: 'pupils', days: 90, clear: clearPupils },
  { key: 'sessions', days: 90, clear: statement('DELETE FROM sign_in_session WHERE ifnull(ended_at, expires_at) < ?') },
  { key: 'invites', days: 14, clear: statement('DELETE FROM invite WHERE coalesce(used_at, revoked_at, expires_at) < ?') },
  { key: 'codes', days: 1, clear: statement('DELETE FROM device_code WHERE expires_at < ?') },
  { key: 'tries', days: 30, clear: statement('DELETE FROM sign_in_try WHERE last_failure_at < ?') },
  { key: 'audit', days: 366, clear: statement('DELETE FROM audit WHERE at < ?') },
  { key: 'searches', days: 366, clear: statement('DELETE FROM rota_run WHERE made_at < ?') },
  // For phones that were long offline.
  { key: 'sentIds', days: 400, clear: statement('DELETE FROM applied_client_id WHERE applied_at < ?') },
  { key: 'messages', days: 90, clear: statement('DELETE FROM message WHERE made_at < ?') },
  { key: 'mailedCodes', days: 30, clear: statement("DELETE FROM mail WHERE kind <> 'message' AND made_at < ?") },
  { key: 'waitingSheets', days: 30, clear: statement('DELETE FROM sheet_import WHERE done_at IS NULL AND made_at < ?') },
  { key: 'refusedRows', days: 90, clear: statement(FORGET_REFUSED) },
  // So that even a machine that was off for a day deletes within 30 (criteria C25).
  { key: 'hiddenPhotos', days: 28, clear: deleteHiddenBefore },
  { key: 'consents', days: 366, clear: statement('DELETE FROM consent WHERE withdrawn_at < ?') },
] as const satisfies readonly Kept[];

/** Clears away what has been kept long enough; gives how many rows. */
export function clearAway(store: Store, now: Date): number {
  if (!isBelievable(now)) return 0;
  return write(store, () => {
    const cleared = RETENTION.map(({ days, clear }) => clear(store, daysBefore(now, days), now));
    dropChangesBefore(store, lastChangeId(store) - CHANGES_KEPT);
    return cleared.reduce((sum, rows) => sum + rows, 0);
  });
}

export function daysBefore(now: Date, days: number): string {
  const before = new Date(now);
  before.setUTCDate(before.getUTCDate() - days);
  return before.toISOString();
}

/** Their names go; what they noted stays, as with everybody who is erased. */
function clearPupils(store: Store, before: string, now: Date): number {
  const gone = pupilsLastHereBefore(store, before.slice(0, 10));
  for (const id of gone) {
    erasePerson(store, id, now.toISOString());
    insertAudit(store, { at: now, personId: null, action: 'pupil-erased', subject: id, detail: { by: 'retention' }, requestId: '' });
  }
  return gone.length;
}
