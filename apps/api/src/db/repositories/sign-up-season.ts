import type { SignUpWay } from '@middenry/domain';
import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface SeasonRow {
  readonly id: string;
  readonly siteId: string;
  readonly siteName: string;
  readonly timeZone: string;
  readonly name: string;
  readonly from: string;
  readonly to: string;
  readonly way: SignUpWay;
  readonly opensAt: string;
  readonly cap: number;
  readonly seed: string;
  readonly drawnAt: string | null;
  /** JSON of what was drawn from and what came out. */
  readonly draw: string | null;
}

const READ = `SELECT s.id, s.site_id AS siteId, site.name AS siteName, site.time_zone AS timeZone, s.name, s.from_date AS "from",
    s.to_date AS "to", s.way, s.opens_at AS opensAt, s.cap, s.seed, s.drawn_at AS drawnAt, s.draw
  FROM sign_up_season s JOIN site ON site.id = s.site_id`;

export const seasonById = (store: Store, id: string): SeasonRow | null => one<SeasonRow>(store, `${READ} WHERE s.id = ?`, id);

export const signUpSeasons = (store: Store, siteId: string | null): SeasonRow[] =>
  all<SeasonRow>(store, `${READ} WHERE @siteId IS NULL OR s.site_id = @siteId ORDER BY s.from_date DESC, s.id`, { siteId });

export const seasonOn = (store: Store, siteId: string, localDate: string): SeasonRow | null =>
  one<SeasonRow>(store, `${READ} WHERE s.site_id = ? AND ? BETWEEN s.from_date AND s.to_date`, siteId, localDate);

type SeasonCore = Omit<SeasonRow, 'siteName' | 'timeZone' | 'drawnAt' | 'draw'>;

export function insertSeason(store: Store, row: SeasonCore & { readonly createdAt: string }): void {
  run(
    store,
    `INSERT INTO sign_up_season (id, site_id, name, from_date, to_date, way, opens_at, cap, seed, created_at)
     VALUES (@id, @siteId, @name, @from, @to, @way, @opensAt, @cap, @seed, @createdAt)`,
    row,
  );
}

export function updateSeason(store: Store, row: Pick<SeasonCore, 'id' | 'name' | 'to' | 'way' | 'opensAt' | 'cap'>): void {
  run(
    store,
    'UPDATE sign_up_season SET name = @name, to_date = @to, way = @way, opens_at = @opensAt, cap = @cap WHERE id = @id AND drawn_at IS NULL',
    row,
  );
}

/** Only the first draw changes this row. */
export function noteDraw(store: Store, id: string, draw: { at: string; text: string }): boolean {
  return run(store, 'UPDATE sign_up_season SET drawn_at = @at, draw = @text WHERE id = @id AND drawn_at IS NULL', { ...draw, id }) === 1;
}

export interface WishListRow {
  readonly personId: string;
  readonly most: number;
  /** JSON list of shift ids, the most wanted first. */
  readonly shiftIds: string;
}

/** Wish lists of those who can still come. */
export const wishListsOf = (store: Store, seasonId: string): WishListRow[] =>
  all(
    store,
    `SELECT l.person_id AS personId, l.most,
       (SELECT json_group_array(w.shift_id ORDER BY w.rank) FROM wish w WHERE w.season_id = l.season_id AND w.person_id = l.person_id) AS shiftIds
     FROM wish_list l JOIN person p ON p.id = l.person_id
     WHERE l.season_id = ? AND p.disabled = 0 AND p.erased_at IS NULL ORDER BY l.person_id`,
    seasonId,
  );

export function setWishes(
  store: Store,
  list: { seasonId: string; personId: string; most: number; shiftIds: readonly string[]; saidAt: string },
): void {
  const { seasonId, personId, most, saidAt } = list;
  run(store, 'DELETE FROM wish_list WHERE season_id = ? AND person_id = ?', seasonId, personId);
  if (list.shiftIds.length === 0) return;
  run(store, 'INSERT INTO wish_list (season_id, person_id, most, said_at) VALUES (?, ?, ?, ?)', seasonId, personId, most, saidAt);
  list.shiftIds.forEach((shiftId, at) => {
    run(store, 'INSERT INTO wish (season_id, person_id, rank, shift_id) VALUES (?, ?, ?, ?)', seasonId, personId, at + 1, shiftId);
  });
}

/** Shifts to come that somebody has a place on, of one site and term; the instant decides later which are over. */
export const heldIn = (
  store: Store,
  personId: string,
  season: Pick<SeasonRow, 'siteId' | 'from' | 'to'>,
): { readonly localDate: string; readonly localTime: string; readonly timeZone: string; readonly minutes: number }[] =>
  all(
    store,
    `SELECT s.local_date AS localDate, s.local_time AS localTime, s.time_zone AS timeZone, s.minutes
     FROM sign_up u JOIN shift s ON s.id = u.shift_id
     WHERE u.person_id = @personId AND u.given_back_at IS NULL AND s.cancelled_at IS NULL
       AND s.site_id = @siteId AND s.local_date BETWEEN @from AND @to`,
    { personId, siteId: season.siteId, from: season.from, to: season.to },
  );
