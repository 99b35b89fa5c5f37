/** Photos wait in a store of their own: no entry waits for one, and none is in the way of an entry. */
import type { Problem } from '@middenry/contract';
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { PHOTOS_MARK } from './mark.ts';

export interface KeptPhoto {
  /** Made when it was chosen; every try to send it carries the same. */
  readonly id: string;
  /** The entry that it goes with; it is sent once the server has that. */
  readonly entryId: string;
  readonly binId: string;
  readonly personId: string;
  readonly kind: 'bin' | 'visitor';
  readonly alt: string;
  readonly takenAt: string;
  readonly picture: Blob;
  /** Why the server did not take it. */
  readonly problem: Problem | null;
}

interface PhotoSchema extends DBSchema {
  photos: { key: string; value: KeptPhoto };
}

const VERSION = 1;

let opened: Promise<IDBPDatabase<PhotoSchema>> | undefined;
function open(): Promise<IDBPDatabase<PhotoSchema>> {
  opened ??= openDB<PhotoSchema>('middenry-photos', VERSION, {
    upgrade: (db) => void db.createObjectStore('photos', { keyPath: 'id' }),
    blocking: () => {
      void opened?.then((db) => db.close());
      opened = undefined;
    },
    terminated: () => {
      opened = undefined;
    },
  });
  opened.catch(() => {
    opened = undefined;
  });
  return opened;
}

/** In the order in which they were taken: their ids grow with time. */
export const keptPhotos = async (): Promise<KeptPhoto[]> => (await open()).getAll('photos');

export async function keepPhoto(photo: KeptPhoto): Promise<void> {
  await (await open()).put('photos', photo);
  mark(true);
}

export async function dropPhoto(id: string): Promise<void> {
  const db = await open();
  await db.delete('photos', id);
  mark((await db.count('photos')) > 0);
}

function mark(anyWait: boolean): void {
  try {
    if (anyWait) localStorage.setItem(PHOTOS_MARK, '1');
    else localStorage.removeItem(PHOTOS_MARK);
  } catch {
    // Then the next page that adds a photo sends what waits.
  }
}
