/** Who can be seen in a photo. Whether it may be shown is a view of the store, so that every reader asks the same (criteria C25). */
import { all, run } from '../rows.ts';
import type { Store } from '../store.ts';

/** waiting: somebody is in it and nobody has said who; hidden: somebody in it does not consent, or the programme shows no people. */
export type PhotoState = 'shown' | 'waiting' | 'hidden';

/** Photos that nobody may see: they go into no export either. */
export const HIDDEN_PHOTOS = "SELECT p.id, p.file FROM photo p JOIN photo_showing v ON v.photo_id = p.id WHERE v.state <> 'shown'";

export interface NamedRow {
  readonly photoId: string;
  readonly id: string;
  readonly name: string;
}

export const namedIn = (store: Store, photoIds: readonly string[]): NamedRow[] =>
  all<NamedRow>(
    store,
    `SELECT n.photo_id AS photoId, n.person_id AS id, w.name FROM photo_person n JOIN person w ON w.id = n.person_id
     WHERE w.name IS NOT NULL AND n.photo_id IN (SELECT value FROM json_each(?)) ORDER BY w.name COLLATE NOCASE`,
    JSON.stringify(photoIds),
  );

/** Says anew whether people are in it, and who. */
export function setPeople(store: Store, photoId: string, people: readonly string[] | null, at: string): void {
  run(store, 'DELETE FROM photo_person WHERE photo_id = ?', photoId);
  for (const id of new Set(people ?? [])) run(store, 'INSERT INTO photo_person (photo_id, person_id) VALUES (?, ?)', photoId, id);
  if (people === null) run(store, "UPDATE photo SET people = 'none', people_at = NULL WHERE id = ?", photoId);
  else run(store, "UPDATE photo SET people = 'some', people_at = ifnull(people_at, ?) WHERE id = ?", at, photoId);
}

/** Photos in which somebody can be seen go with them; gives the names of their files. */
export function deletePhotosOf(store: Store, personId: string): string[] {
  const files = all<{ file: string }>(
    store,
    'SELECT file FROM photo WHERE id IN (SELECT photo_id FROM photo_person WHERE person_id = ?)',
    personId,
  ).map(({ file }) => file);
  run(store, 'DELETE FROM photo WHERE id IN (SELECT photo_id FROM photo_person WHERE person_id = ?)', personId);
  return files;
}

/** By the keeper, once they have been hidden for as long as a mistake may be mended. */
export const deleteHiddenBefore = (store: Store, before: string): number =>
  run(store, 'DELETE FROM photo WHERE id IN (SELECT photo_id FROM photo_showing WHERE hidden_since < ?)', before);
