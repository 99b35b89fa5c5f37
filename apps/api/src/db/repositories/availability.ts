import type { Liking } from '@middenry/domain';
import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export type SkillName = 'lifting' | 'harvest' | 'keys' | 'guiding';

export interface PersonTimeRow {
  readonly weekday: number;
  readonly from: string;
  readonly to: string;
  readonly liking: Liking;
}
export interface PersonAwayRow {
  readonly from: string;
  readonly to: string;
}
export interface PersonWishRow {
  /** null: not said. */
  readonly wishCount: number | null;
  readonly wishPer: 'week' | 'month';
  readonly capPerWeek: number | null;
  readonly capPerDay: number | null;
  readonly saidAt: string;
}

export interface AvailabilityRows {
  readonly weekly: readonly PersonTimeRow[];
  readonly away: readonly PersonAwayRow[];
  readonly skills: readonly SkillName[];
  readonly siteIds: readonly string[];
  readonly wish: PersonWishRow | null;
}

export const availabilityRows = (store: Store, personId: string): AvailabilityRows => ({
  weekly: all<PersonTimeRow>(
    store,
    'SELECT weekday, from_time AS "from", to_time AS "to", liking FROM person_time WHERE person_id = ? ORDER BY weekday, from_time',
    personId,
  ),
  away: all<PersonAwayRow>(
    store,
    'SELECT from_date AS "from", to_date AS "to" FROM person_away WHERE person_id = ? ORDER BY from_date, to_date',
    personId,
  ),
  skills: all<{ skill: SkillName }>(store, 'SELECT skill FROM person_skill WHERE person_id = ? ORDER BY skill', personId).map(
    ({ skill }) => skill,
  ),
  siteIds: all<{ siteId: string }>(
    store,
    'SELECT site_id AS siteId FROM person_site_wish WHERE person_id = ? ORDER BY site_id',
    personId,
  ).map(({ siteId }) => siteId),
  wish: one<PersonWishRow>(
    store,
    `SELECT wish_count AS wishCount, wish_per AS wishPer, cap_per_week AS capPerWeek, cap_per_day AS capPerDay, said_at AS saidAt
     FROM person_wish WHERE person_id = ?`,
    personId,
  ),
});

export function setPersonTimes(store: Store, personId: string, rows: readonly PersonTimeRow[]): void {
  run(store, 'DELETE FROM person_time WHERE person_id = ?', personId);
  for (const row of rows)
    run(
      store,
      'INSERT INTO person_time (person_id, weekday, from_time, to_time, liking) VALUES (@personId, @weekday, @from, @to, @liking)',
      { ...row, personId },
    );
}

export function setPersonAway(store: Store, personId: string, rows: readonly PersonAwayRow[]): void {
  run(store, 'DELETE FROM person_away WHERE person_id = ?', personId);
  for (const row of rows)
    run(store, 'INSERT OR IGNORE INTO person_away (person_id, from_date, to_date) VALUES (@personId, @from, @to)', { ...row, personId });
}

export function setPersonSkills(store: Store, personId: string, skills: readonly SkillName[]): void {
  run(store, 'DELETE FROM person_skill WHERE person_id = ?', personId);
  for (const skill of skills) run(store, 'INSERT OR IGNORE INTO person_skill (person_id, skill) VALUES (?, ?)', personId, skill);
}

export function setPersonSites(store: Store, personId: string, siteIds: readonly string[]): void {
  run(store, 'DELETE FROM person_site_wish WHERE person_id = ?', personId);
  for (const siteId of siteIds) run(store, 'INSERT OR IGNORE INTO person_site_wish (person_id, site_id) VALUES (?, ?)', personId, siteId);
}

export function setPersonWish(store: Store, personId: string, row: PersonWishRow): void {
  run(
    store,
    `INSERT OR REPLACE INTO person_wish (person_id, wish_count, wish_per, cap_per_week, cap_per_day, said_at)
     VALUES (@personId, @wishCount, @wishPer, @capPerWeek, @capPerDay, @saidAt)`,
    { ...row, personId },
  );
}

export interface ShiftNeedRow {
  readonly skill: SkillName;
  readonly places: number;
}

export const needsOfShifts = (store: Store, shiftIds: readonly string[]): (ShiftNeedRow & { readonly shiftId: string })[] =>
  all(
    store,
    `SELECT shift_id AS shiftId, skill, places FROM shift_need WHERE shift_id IN (SELECT value FROM json_each(?)) ORDER BY shift_id, skill`,
    JSON.stringify(shiftIds),
  );

export function setShiftNeeds(store: Store, shiftId: string, rows: readonly ShiftNeedRow[]): void {
  run(store, 'DELETE FROM shift_need WHERE shift_id = ?', shiftId);
  for (const row of rows)
    run(store, 'INSERT INTO shift_need (shift_id, skill, places) VALUES (@shiftId, @skill, @places)', { ...row, shiftId });
}
