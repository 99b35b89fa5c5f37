/** Takes somebody out of the store and leaves what they noted (criteria C27). */
import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';
import { forgetInSheets } from './forget-in-sheets.ts';
import { deletePhotosOf, setPeople } from './photo-people.ts';

/** Rows that say something of the person alone; availability and proposals follow by triggers of the store. */
const ABOUT_THEM = [
  'DELETE FROM class_pupil WHERE person_id = ?',
  'DELETE FROM shift_group_pupil WHERE person_id = ?',
  'DELETE FROM wish_list WHERE person_id = ?',
  'DELETE FROM credential WHERE person_id = ?',
  'DELETE FROM membership WHERE person_id = ?',
  'DELETE FROM device_code WHERE person_id = ?',
  'DELETE FROM mail WHERE person_id = ?',
  'DELETE FROM message WHERE person_id = ?',
  'DELETE FROM message_setting WHERE person_id = ?',
  'DELETE FROM link WHERE person_id = ?',
  'DELETE FROM invite WHERE person_id = ?',
  'DELETE FROM invite WHERE used_by = ?',
] as const;

/** Gives the names of the files of photos in which they could be seen; their rows are gone. */
export function erasePerson(store: Store, id: string, at: string): string[] {
  const files = deletePhotosOf(store, id);
  run(store, 'UPDATE consent SET withdrawn_at = ? WHERE person_id = ? AND withdrawn_at IS NULL', at, id);
  for (const text of ABOUT_THEM) store.sql(text).run(id);
  // Kept without its device's name until it would have gone anyway: so their phone can be told why nothing is taken any more.
  store.sql("UPDATE sign_in_session SET ended_at = ifnull(ended_at, min(?, expires_at)), label = '' WHERE person_id = ?").run(at, id);
  store
    .sql('UPDATE person SET name = NULL, email = NULL, disabled = 1, owner = 0, cleared_at = NULL, erased_at = ? WHERE id = ?')
    .run(at, id);
  return files;
}

/** Where their name stands without them: as that of whoever got castings, and in lists that were brought in. */
export function forgetName(store: Store, { id, name }: { readonly id: string; readonly name: string }): void {
  run(store, 'UPDATE castings_move SET receiver = NULL WHERE receiver = ? COLLATE NOCASE', name);
  forgetInSheets(store, { id, name });
}

interface Gone {
  readonly id: string;
  /** A day in UTC. */
  readonly on: string;
}

/** Whoever was erased stays so in a store that comes from before; gives how many of them it still knew. */
export function eraseAgain(store: Store, erased: readonly Gone[], now: Date): number {
  const known = erased.flatMap(({ id, on }) => {
    const row = one<{ readonly name: string }>(store, 'SELECT name FROM person WHERE id = ? AND erased_at IS NULL', id);
    return row === null ? [] : [{ id, erasedAt: startOf(on), name: row.name }];
  });
  for (const { id, erasedAt, name } of known) {
    forgetName(store, { id, name });
    erasePerson(store, id, erasedAt);
    run(
      store,
      `UPDATE sign_up SET given_back_at = ? WHERE person_id = ? AND given_back_at IS NULL
         AND shift_id IN (SELECT id FROM shift WHERE local_date > ?)`,
      now.toISOString(),
      id,
      now.toISOString().slice(0, 10),
    );
  }
  return known.length;
}

/** A consent that was withdrawn stays so too; gives how many still held. */
export const withdrawAgain = (store: Store, withdrawn: readonly Gone[]): number =>
  withdrawn.reduce(
    (sum, { id, on }) => sum + run(store, 'UPDATE consent SET withdrawn_at = ? WHERE id = ? AND withdrawn_at IS NULL', startOf(on), id),
    0,
  );

/** A photo that was taken off stays so; gives how many were still there. Their files are nobody's then. */
export const takeOffAgain = (store: Store, photosGone: readonly Gone[]): number =>
  photosGone.reduce((sum, { id }) => sum + run(store, 'DELETE FROM photo WHERE id = ?', id), 0);

interface Marked extends Gone {
  readonly people: readonly string[];
}

/** A photo in which somebody said that people are stays one of people; gives how many did not say so, or named others. */
export const markAgain = (store: Store, marked: readonly Marked[]): number =>
  marked.filter(({ id, on, people }) => {
    const row = one<{ readonly people: string }>(store, 'SELECT people FROM photo WHERE id = ?', id);
    if (row === null) return false;
    const known = people.filter((person) => one(store, 'SELECT 1 FROM person WHERE id = ? AND erased_at IS NULL', person) !== null);
    const before = all<{ readonly id: string }>(store, 'SELECT person_id AS id FROM photo_person WHERE photo_id = ?', id);
    const isSame = row.people === 'some' && before.length === known.length && before.every((one) => known.includes(one.id));
    if (!isSame) setPeople(store, id, known, startOf(on));
    return !isSame;
  }).length;

const startOf = (day: string): string => `${day}T00:00:00.000Z`;
