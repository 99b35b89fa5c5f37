/** What the page about the machine's state asks of the store. */
import { all, one } from '../rows.ts';
import type { Store } from '../store.ts';

/** Seconds by which each person's phone was ahead when it last sent an entry, smallest first. */
export const phoneSkews = (store: Store, since: string): number[] =>
  all<{ skewS: number }>(
    store,
    // SQLite takes the other columns from the row that holds the maximum.
    `SELECT skewS FROM (
       SELECT skew_s AS skewS, max(received_at) FROM entry
       WHERE received_at >= ? AND skew_s IS NOT NULL AND person_id IS NOT NULL GROUP BY person_id
     ) ORDER BY skewS`,
    since,
  ).map(({ skewS }) => skewS);

export interface QuietPhone {
  readonly personId: string;
  readonly name: string;
  readonly label: string;
  readonly lastSeenAt: string;
}

const QUIET = `FROM sign_in_session s JOIN person p ON p.id = s.person_id
  WHERE s.kind IN ('device', 'pupil') AND s.ended_at IS NULL AND s.expires_at > @at AND s.last_seen_at < @before`;

/** Phones that are still signed in and were not here since then, the one away longest first. */
export const quietPhones = (store: Store, span: { at: string; before: string }, most: number): QuietPhone[] =>
  all<QuietPhone>(
    store,
    `SELECT s.person_id AS personId, p.name, s.label, s.last_seen_at AS lastSeenAt ${QUIET} ORDER BY s.last_seen_at, s.id LIMIT @most`,
    { ...span, most },
  );
export const countQuietPhones = (store: Store, span: { at: string; before: string }): number =>
  one<{ n: number }>(store, `SELECT count(*) AS n ${QUIET}`, span)!.n;

/** Since when the oldest mail waits that might be sent now; null when none does. */
export const mailDueSince = (store: Store, at: string): string | null =>
  one<{ since: string | null }>(store, `SELECT min(made_at) AS since FROM mail WHERE state = 'waiting' AND good_until > ?`, at)!.since;
