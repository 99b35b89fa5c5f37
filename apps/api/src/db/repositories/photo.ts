import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';
import type { PhotoState } from './photo-people.ts';

export interface PhotoRow {
  readonly id: string;
  readonly binId: string;
  readonly siteId: string;
  /** As sent; the entry may come later, or never. */
  readonly entryId: string | null;
  readonly personId: string;
  /** null: erased. */
  readonly personName: string | null;
  readonly kind: 'bin' | 'visitor';
  readonly alt: string;
  readonly takenAt: string;
  readonly file: string;
  readonly bytes: number;
  readonly width: number;
  readonly height: number;
  readonly sha256: string;
  readonly people: 'none' | 'some';
  readonly state: PhotoState;
  readonly hiddenSince: string | null;
}

const READ = `SELECT p.id, p.bin_id AS binId, b.site_id AS siteId, p.entry_id AS entryId, p.person_id AS personId, w.name AS personName,
    p.kind, p.alt, p.taken_at AS takenAt, p.file, p.bytes, p.width, p.height, p.sha256, p.people,
    v.state, v.hidden_since AS hiddenSince
  FROM photo p JOIN bin b ON b.id = p.bin_id JOIN person w ON w.id = p.person_id
    JOIN photo_showing v ON v.photo_id = p.id`;

export const photoById = (store: Store, id: string): PhotoRow | null => one<PhotoRow>(store, `${READ} WHERE p.id = ?`, id);

const UNDONE = 'EXISTS (SELECT 1 FROM entry e WHERE e.id = p.entry_id AND e.undone_at IS NOT NULL)';

/** Newest first; a photo of an entry that was undone is not shown, nor one in which somebody does not consent. */
export const photosOfBin = (store: Store, binId: string, limit: number): PhotoRow[] =>
  all<PhotoRow>(
    store,
    `${READ} WHERE p.bin_id = ? AND NOT ${UNDONE} AND v.state = 'shown'
     ORDER BY p.taken_at DESC, p.id DESC LIMIT ?`,
    binId,
    limit,
  );

/** Those with people in them, whatever may be shown of them; newest first. */
export const photosOfPeople = (store: Store, limit: number): PhotoRow[] =>
  all<PhotoRow>(store, `${READ} WHERE p.people = 'some' AND NOT ${UNDONE} ORDER BY p.taken_at DESC, p.id DESC LIMIT ?`, limit);

export const photoBytesOf = (store: Store, personId: string): number =>
  one<{ bytes: number }>(store, 'SELECT ifnull(sum(bytes), 0) AS bytes FROM photo WHERE person_id = ?', personId)!.bytes;

type PhotoNewRow = Omit<PhotoRow, 'siteId' | 'personName' | 'people' | 'state' | 'hiddenSince'> & { readonly receivedAt: string };

export function insertPhoto(store: Store, row: PhotoNewRow): void {
  run(
    store,
    `INSERT INTO photo (id, bin_id, entry_id, person_id, kind, alt, taken_at, received_at, file, bytes, width, height, sha256)
     VALUES (@id, @binId, @entryId, @personId, @kind, @alt, @takenAt, @receivedAt, @file, @bytes, @width, @height, @sha256)`,
    row,
  );
}

export const deletePhoto = (store: Store, id: string): number => run(store, 'DELETE FROM photo WHERE id = ?', id);

export const photoFiles = (store: Store): Set<string> =>
  new Set(all<{ file: string }>(store, 'SELECT file FROM photo').map(({ file }) => file));
