import type { Pocket, Problem } from '@middenry/contract';
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { EntryKind } from '../log/entry-kinds.ts';

/** An entry that is on this phone and not yet, as far as it knows, with the server. */
export interface Kept {
  /** In the order in which they were kept, whatever the clock did meanwhile. */
  readonly seq: number;
  /** Made when the form opened; every try to send it carries the same. */
  readonly id: string;
  readonly kind: EntryKind;
  readonly body: { readonly id: string; readonly happenedAt: string; readonly note?: string | undefined };
  /** Whose it is: it is sent for nobody else. */
  readonly personId: string;
  readonly binId: string;
  readonly binCode: string;
  readonly keptAt: string;
  /** Why it was refused; then it waits for a person, not for the network. */
  readonly problem: Problem | null;
}

/** What was typed and not yet saved. */
export interface Draft {
  /** Of the form, which becomes the entry's. */
  readonly id: string;
  readonly fields: Readonly<Record<string, string>>;
  readonly at: string;
}

export interface PocketKept {
  readonly personId: string;
  readonly pocket: Pocket;
  readonly etag: string | null;
  /** When the server last said that it is still so. */
  readonly checkedAt: string;
}

export interface PhoneSchema extends DBSchema {
  entries: { key: number; value: Omit<Kept, 'seq'> & { seq?: number }; indexes: { id: string } };
  drafts: { key: string; value: Draft };
  pockets: { key: string; value: PocketKept };
  facts: { key: string; value: string };
}
export type Phone = IDBPDatabase<PhoneSchema>;

const VERSION = 1;
let opened: Promise<Phone> | undefined;

/** The phone's own store; it outlives the page, the browser and the night. */
export function openPhone(): Promise<Phone> {
  opened ??= openDB<PhoneSchema>('middenry', VERSION, {
    upgrade(db) {
      const entries = db.createObjectStore('entries', { keyPath: 'seq', autoIncrement: true });
      entries.createIndex('id', 'id', { unique: true });
      db.createObjectStore('drafts');
      db.createObjectStore('pockets', { keyPath: 'personId' });
      db.createObjectStore('facts');
    },
    // Another tab of a newer build must not wait for this one.
    blocking: () => void closePhone(),
    terminated: () => {
      opened = undefined;
    },
  });
  opened.catch(() => {
    opened = undefined;
  });
  return opened;
}

async function closePhone(): Promise<void> {
  const was = opened;
  opened = undefined;
  (await was)?.close();
}
