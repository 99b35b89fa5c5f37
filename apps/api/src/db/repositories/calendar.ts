import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface CalendarLinkRow {
  readonly id: string;
  readonly personId: string;
  readonly label: string;
  readonly createdAt: string;
  readonly revokedAt: string | null;
}

const LINK = `SELECT l.id, l.person_id AS personId, l.label, l.created_at AS createdAt, l.revoked_at AS revokedAt
  FROM link l JOIN person p ON p.id = l.person_id WHERE l.kind = 'calendar'`;

export const calendarLinksOf = (store: Store, personId: string): CalendarLinkRow[] =>
  all<CalendarLinkRow>(store, `${LINK} AND l.person_id = ? ORDER BY l.created_at DESC, l.id`, personId);

export const calendarLinkById = (store: Store, id: string): CalendarLinkRow | null =>
  one<CalendarLinkRow>(store, `${LINK} AND l.id = ?`, id);

/** A live link of somebody who is still let in. */
export const openCalendarLink = (store: Store, tokenHash: string): CalendarLinkRow | null =>
  one<CalendarLinkRow>(
    store,
    `${LINK} AND l.token_hash = ? AND l.revoked_at IS NULL AND p.disabled = 0 AND p.erased_at IS NULL`,
    tokenHash,
  );

export function insertCalendarLink(store: Store, row: Omit<CalendarLinkRow, 'revokedAt'> & { readonly tokenHash: string }): void {
  run(
    store,
    `INSERT INTO link (id, kind, token_hash, person_id, label, created_by, created_at)
     VALUES (@id, 'calendar', @tokenHash, @personId, @label, @personId, @createdAt)`,
    row,
  );
}

export function revokeCalendarLink(store: Store, id: string, at: string): void {
  run(store, 'UPDATE link SET revoked_at = ? WHERE id = ? AND revoked_at IS NULL', at, id);
}

/** A shift as far as a calendar is told of it. */
export interface CalendarShiftRow {
  readonly id: string;
  readonly siteName: string;
  readonly localDate: string;
  readonly localTime: string;
  readonly timeZone: string;
  readonly minutes: number;
  readonly cancelled: number;
  /** Bin codes, by their place. */
  readonly bins: string | null;
  /** Kinds of duties. */
  readonly duties: string | null;
}

const SHIFT = `SELECT s.id, site.name AS siteName, s.local_date AS localDate, s.local_time AS localTime, s.time_zone AS timeZone, s.minutes,
    (s.cancelled_at IS NOT NULL) AS cancelled,
    (SELECT group_concat(code, ', ') FROM (SELECT b.code FROM shift_bin sb JOIN bin b ON b.id = sb.bin_id WHERE sb.shift_id = s.id
       ORDER BY b.place_order, b.code)) AS bins,
    (SELECT group_concat(DISTINCT d.kind) FROM shift_duty d WHERE d.shift_id = s.id) AS duties
  FROM shift s JOIN site ON site.id = s.site_id`;

/** Shifts on which somebody has a place, from a day on; cancelled ones stay while they were cancelled after an instant. */
export const calendarShiftsOf = (store: Store, of: { personId: string; from: string; cancelledSince: string }): CalendarShiftRow[] =>
  all<CalendarShiftRow>(
    store,
    `${SHIFT} JOIN sign_up u ON u.shift_id = s.id AND u.person_id = @personId AND u.given_back_at IS NULL
     WHERE s.local_date >= @from OR s.cancelled_at >= @cancelledSince ORDER BY s.local_date, s.local_time, s.id LIMIT 2000`,
    of,
  );

export const calendarShiftById = (store: Store, id: string): CalendarShiftRow | null =>
  one<CalendarShiftRow>(store, `${SHIFT} WHERE s.id = ?`, id);

export interface CalendarStampRow {
  readonly subject: string;
  readonly contentHash: string;
  readonly sequence: number;
  readonly changedAt: string;
}

export const calendarStamps = (store: Store, subjects: readonly string[]): CalendarStampRow[] =>
  all<CalendarStampRow>(
    store,
    `SELECT subject, content_hash AS contentHash, sequence, changed_at AS changedAt FROM calendar_stamp
     WHERE subject IN (SELECT value FROM json_each(?))`,
    JSON.stringify(subjects),
  );

export function putCalendarStamp(store: Store, row: CalendarStampRow): void {
  run(
    store,
    `INSERT INTO calendar_stamp (subject, content_hash, sequence, changed_at) VALUES (@subject, @contentHash, @sequence, @changedAt)
     ON CONFLICT (subject) DO UPDATE SET content_hash = @contentHash, sequence = @sequence, changed_at = @changedAt`,
    row,
  );
}
