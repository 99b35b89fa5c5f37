import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export type MailState = 'waiting' | 'sending' | 'handed-over' | 'failed' | 'dropped';
export type MailKind = 'message' | 'code' | 'test';

export interface MailRow {
  readonly id: string;
  readonly kind: MailKind;
  readonly personId: string;
  readonly messageId: string | null;
  readonly address: string;
  readonly urgent: number;
  readonly state: MailState;
  readonly tries: number;
  readonly madeAt: string;
  readonly nextTryAt: string;
  readonly goodUntil: string;
  readonly doneAt: string | null;
  readonly lastError: string;
  readonly replyHash: string | null;
  readonly secret: string | null;
}

const READ = `SELECT id, kind, person_id AS personId, message_id AS messageId, address, urgent, state, tries, made_at AS madeAt,
    next_try_at AS nextTryAt, good_until AS goodUntil, done_at AS doneAt, last_error AS lastError, reply_hash AS replyHash, secret FROM mail`;

export type MailNewRow = Pick<
  MailRow,
  'id' | 'kind' | 'personId' | 'messageId' | 'address' | 'urgent' | 'madeAt' | 'nextTryAt' | 'goodUntil' | 'secret'
>;

export function insertMail(store: Store, row: MailNewRow): void {
  run(
    store,
    `INSERT INTO mail (id, kind, person_id, message_id, address, urgent, made_at, next_try_at, good_until, secret)
     VALUES (@id, @kind, @personId, @messageId, @address, @urgent, @madeAt, @nextTryAt, @goodUntil, @secret)`,
    row,
  );
}

export const mailById = (store: Store, id: string): MailRow | null => one<MailRow>(store, `${READ} WHERE id = ?`, id);

export const mailByReply = (store: Store, hash: string): MailRow | null => one<MailRow>(store, `${READ} WHERE reply_hash = ?`, hash);

/** What may be sent now, urgent mail first. */
export const dueMail = (store: Store, at: string, limit: number): MailRow[] =>
  all<MailRow>(store, `${READ} WHERE state = 'waiting' AND next_try_at <= ? ORDER BY urgent DESC, made_at, id LIMIT ?`, at, limit);

/** What else waits to be told to the same person at the same address and may go along, the oldest first. */
export const mailAlong = (store: Store, row: MailRow, along: { kinds: readonly string[]; until: string }): MailRow[] =>
  all<MailRow>(
    store,
    `${READ} WHERE state = 'waiting' AND kind = 'message' AND urgent = 0 AND person_id = @personId AND address = @address AND id <> @id
       AND next_try_at <= @until
       AND message_id IN (SELECT id FROM message WHERE kind IN (SELECT value FROM json_each(@kinds)))
     ORDER BY made_at, id`,
    { personId: row.personId, address: row.address, id: row.id, until: along.until, kinds: JSON.stringify(along.kinds) },
  );

/** Takes one for sending; false when somebody did already. Committed before anything leaves, so that a crash cannot send it twice. */
export function takeMail(store: Store, id: string, replyHash: string | null): boolean {
  return run(store, `UPDATE mail SET state = 'sending', reply_hash = ? WHERE id = ? AND state = 'waiting'`, replyHash, id) === 1;
}

export function endMail(store: Store, id: string, end: { state: 'handed-over' | 'failed' | 'dropped'; at: string; error: string }): void {
  run(
    store,
    `UPDATE mail SET state = @state, done_at = @at, last_error = @error, tries = tries + (@state <> 'dropped'), secret = NULL WHERE id = @id`,
    { ...end, id },
  );
}

export function tryLater(store: Store, id: string, later: { nextTryAt: string; error: string }): void {
  run(store, `UPDATE mail SET state = 'waiting', tries = tries + 1, next_try_at = @nextTryAt, last_error = @error WHERE id = @id`, {
    ...later,
    id,
  });
}

/** Mail whose time is over is let go, so that there is no flood when the server comes back. */
export function dropStaleMail(store: Store, at: string): number {
  return run(
    store,
    `UPDATE mail SET state = 'dropped', done_at = ?, secret = NULL,
       last_error = CASE last_error WHEN '' THEN 'too late to be of use' ELSE last_error END
     WHERE state = 'waiting' AND good_until <= ?`,
    at,
    at,
  );
}

/** Whether mail that was being handed over when the program stopped arrived, nobody knows: it counts as failed. */
export function failInterruptedMail(store: Store, at: string): number {
  return run(
    store,
    `UPDATE mail SET state = 'failed', done_at = ?, secret = NULL, last_error = 'the program stopped while it was sent; it may have arrived'
     WHERE state = 'sending'`,
    at,
  );
}

export interface MailCounts {
  readonly waiting: number;
  readonly failed: number;
  readonly dropped: number;
  readonly handedOver: number;
}

/** What waits, and what became of the rest since an instant. */
export const countMail = (store: Store, since: string): MailCounts =>
  one<MailCounts>(
    store,
    `SELECT ifnull(sum(state IN ('waiting', 'sending')), 0) AS waiting, ifnull(sum(state = 'failed' AND done_at >= @since), 0) AS failed,
       ifnull(sum(state = 'dropped' AND done_at >= @since), 0) AS dropped, ifnull(sum(state = 'handed-over' AND done_at >= @since), 0) AS handedOver
     FROM mail`,
    { since },
  )!;

export const newestMail = (store: Store, personId: string, kind: MailKind): MailRow | null =>
  one<MailRow>(store, `${READ} WHERE person_id = ? AND kind = ? ORDER BY made_at DESC, id DESC LIMIT 1`, personId, kind);

export const countMailSince = (store: Store, personId: string, of: { kind: MailKind; since: string }): number =>
  one<{ n: number }>(
    store,
    'SELECT count(*) AS n FROM mail WHERE person_id = ? AND kind = ? AND made_at >= ?',
    personId,
    of.kind,
    of.since,
  )!.n;

export const mailOfMessages = (store: Store, messageIds: readonly string[]): MailRow[] =>
  all<MailRow>(store, `${READ} WHERE message_id IN (SELECT value FROM json_each(?))`, JSON.stringify(messageIds));

export const lastHandedOverAt = (store: Store): string | null =>
  one<{ at: string | null }>(store, `SELECT max(done_at) AS at FROM mail WHERE state = 'handed-over'`)!.at;

/** What went wrong last, unless something has gone right since. */
export const lastMailError = (store: Store): string | null =>
  one<{ error: string }>(
    store,
    `SELECT last_error AS error FROM mail WHERE last_error <> '' AND state IN ('waiting', 'failed')
       AND ifnull(done_at, next_try_at) >= ifnull((SELECT max(done_at) FROM mail WHERE state = 'handed-over'), '')
     ORDER BY ifnull(done_at, next_try_at) DESC LIMIT 1`,
  )?.error ?? null;
