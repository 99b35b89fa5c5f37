import type { AgeBand } from '@middenry/domain';
import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface ShiftGroupRow {
  readonly id: string;
  readonly shiftId: string;
  readonly classId: string;
  readonly className: string;
  readonly ageBand: AgeBand;
  readonly pupils: number;
  /** JSON list of first names and initials. */
  readonly names: string;
  readonly checkedInAt: string | null;
  readonly endedAt: string | null;
}

const READ = `SELECT g.id, g.shift_id AS shiftId, g.class_id AS classId, c.name AS className, c.age_band AS ageBand, g.pupils,
    (SELECT json_group_array(p.name ORDER BY p.name) FROM shift_group_pupil n JOIN person p ON p.id = n.person_id
      WHERE n.group_id = g.id AND p.name IS NOT NULL) AS names,
    g.checked_in_at AS checkedInAt, g.ended_at AS endedAt
  FROM shift_group g JOIN class c ON c.id = g.class_id`;

export const shiftGroupById = (store: Store, id: string): ShiftGroupRow | null => one<ShiftGroupRow>(store, `${READ} WHERE g.id = ?`, id);

export const groupsOfShifts = (store: Store, shiftIds: readonly string[]): ShiftGroupRow[] =>
  all<ShiftGroupRow>(
    store,
    `${READ} WHERE g.ended_at IS NULL AND g.shift_id IN (SELECT value FROM json_each(?)) ORDER BY g.made_at, g.id`,
    JSON.stringify(shiftIds),
  );

/** Takes places for pupils in one statement, as a place is taken: only while there are enough and the shift is on. */
const TAKE_GROUP = `INSERT INTO shift_group (id, shift_id, class_id, pupils, made_by, made_at)
  SELECT @id, s.id, @classId, @pupils, @madeBy, @at FROM shift s
  WHERE s.id = @shiftId AND s.cancelled_at IS NULL
    AND (SELECT ifnull(sum(g.pupils), 0) FROM shift_group g WHERE g.shift_id = s.id AND g.ended_at IS NULL) + @pupils <= s.pupil_places
    AND NOT EXISTS (SELECT 1 FROM shift_group g WHERE g.shift_id = s.id AND g.class_id = @classId AND g.ended_at IS NULL)`;

export interface GroupWish {
  readonly id: string;
  readonly shiftId: string;
  readonly classId: string;
  readonly pupils: number;
  readonly madeBy: string;
  readonly at: string;
}

export const takeGroup = (store: Store, wish: GroupWish): boolean => run(store, TAKE_GROUP, wish) === 1;

export function nameGroupPupils(store: Store, groupId: string, pupilIds: readonly string[]): void {
  for (const id of pupilIds) run(store, 'INSERT OR IGNORE INTO shift_group_pupil (group_id, person_id) VALUES (?, ?)', groupId, id);
}

export const endGroup = (store: Store, id: string, at: string): boolean =>
  run(store, 'UPDATE shift_group SET ended_at = ? WHERE id = ? AND ended_at IS NULL', at, id) > 0;

export function checkInGroup(store: Store, id: string, at: string | null): void {
  run(store, 'UPDATE shift_group SET checked_in_at = ? WHERE id = ? AND ended_at IS NULL', at, id);
}

/** Shifts from a day on to which pupils come. */
export const shiftsWithGroups = (store: Store, from: string): string[] =>
  all<{ id: string }>(
    store,
    `SELECT DISTINCT s.id FROM shift s JOIN shift_group g ON g.shift_id = s.id AND g.ended_at IS NULL
     WHERE s.local_date >= ? AND s.cancelled_at IS NULL`,
    from,
  ).map(({ id }) => id);
