import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface MessageRow {
  readonly id: string;
  readonly personId: string;
  readonly kind: string;
  readonly shiftId: string | null;
  readonly occasion: string;
  /** JSON */
  readonly facts: string;
  readonly urgent: number;
  readonly madeAt: string;
  readonly goodUntil: string | null;
  readonly readAt: string | null;
  readonly overAt: string | null;
}

const COLUMNS = `m.id, m.person_id AS personId, m.kind, m.shift_id AS shiftId, m.occasion, m.facts, m.urgent, m.made_at AS madeAt,
    m.good_until AS goodUntil, m.read_at AS readAt, m.over_at AS overAt`;

/** Puts a message there unless the same one is there already; says whether it is new. */
export function insertMessage(store: Store, row: Omit<MessageRow, 'readAt' | 'overAt'>): boolean {
  return (
    run(
      store,
      `INSERT INTO message (id, person_id, kind, shift_id, occasion, facts, urgent, made_at, good_until)
       VALUES (@id, @personId, @kind, @shiftId, @occasion, @facts, @urgent, @madeAt, @goodUntil) ON CONFLICT DO NOTHING`,
      row,
    ) === 1
  );
}

export const messageById = (store: Store, id: string): MessageRow | null =>
  one<MessageRow>(store, `SELECT ${COLUMNS} FROM message m WHERE m.id = ?`, id);

/** Newest first, older than a given one where one is given. */
export const messagesOf = (store: Store, personId: string, page: { before: string | null; limit: number }): MessageRow[] =>
  all<MessageRow>(
    store,
    `SELECT ${COLUMNS} FROM message m WHERE m.person_id = @personId
       AND (@before IS NULL OR (m.made_at, m.rowid) < (SELECT made_at, rowid FROM message WHERE id = @before AND person_id = @personId))
     ORDER BY m.made_at DESC, m.rowid DESC LIMIT @limit`,
    { personId, ...page },
  );

export const messagesOfShift = (store: Store, shiftId: string, kinds: readonly string[]): MessageRow[] =>
  all<MessageRow>(
    store,
    `SELECT ${COLUMNS} FROM message m WHERE m.shift_id = ? AND m.kind IN (SELECT value FROM json_each(?)) ORDER BY m.made_at DESC, m.id`,
    shiftId,
    JSON.stringify(kinds),
  );

const UNREAD = 'person_id = ? AND read_at IS NULL AND over_at IS NULL';
export const countUnread = (store: Store, personId: string): number =>
  one<{ n: number }>(store, `SELECT count(*) AS n FROM message WHERE ${UNREAD}`, personId)!.n;

export function markRead(store: Store, personId: string, ids: readonly string[], at: string): void {
  run(
    store,
    'UPDATE message SET read_at = ? WHERE person_id = ? AND read_at IS NULL AND id IN (SELECT value FROM json_each(?))',
    at,
    personId,
    JSON.stringify(ids),
  );
}

/** How many of these messages are this person's. */
export const countOwn = (store: Store, personId: string, ids: readonly string[]): number =>
  one<{ n: number }>(
    store,
    'SELECT count(*) AS n FROM message WHERE person_id = ? AND id IN (SELECT value FROM json_each(?))',
    personId,
    JSON.stringify(ids),
  )!.n;

/** What these messages say is no longer so. */
export function endMessages(store: Store, of: { kind: string; shiftId: string; occasion?: string; at: string }): void {
  run(
    store,
    `UPDATE message SET over_at = @at WHERE kind = @kind AND shift_id = @shiftId AND over_at IS NULL
       AND (@occasion IS NULL OR occasion = @occasion)`,
    { occasion: null, ...of },
  );
}

/** How often this was said about the shift and was then over: the number of the next time. */
export const timesOver = (store: Store, kind: string, shiftId: string): number =>
  one<{ n: number }>(
    store,
    'SELECT count(DISTINCT occasion) AS n FROM message WHERE kind = ? AND shift_id = ? AND over_at IS NOT NULL',
    kind,
    shiftId,
  )!.n;

/** Shifts about which this was said and is not over. */
export const openMessageShifts = (store: Store, kind: string): string[] =>
  all<{ id: string }>(
    store,
    'SELECT DISTINCT shift_id AS id FROM message WHERE kind = ? AND over_at IS NULL AND shift_id IS NOT NULL',
    kind,
  ).map(({ id }) => id);

export const wasTold = (store: Store, personId: string, of: { kind: string; occasion: string }): boolean =>
  one(store, 'SELECT 1 FROM message WHERE person_id = ? AND kind = ? AND occasion = ?', personId, of.kind, of.occasion) !== null;
