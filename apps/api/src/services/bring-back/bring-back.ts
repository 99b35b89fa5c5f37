/** A whole programme out of an export, where none has begun: all of it or nothing (criteria G1, G4). */
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { type Again, againDetail, eraseAsKnown } from '../../db/keep/erase-again.ts';
import type { ErasureList } from '../../db/keep/erasures.ts';
import { soundFacts, syncToDisk } from '../../db/keep/verify.ts';
import { migrate, readMigrations } from '../../db/migrate.ts';
import { openStore } from '../../db/open.ts';
import { closeInOrder, STORE_TAILS } from '../../db/open-note.ts';
import { insertAudit } from '../../db/repositories/audit.ts';
import { photoFiles } from '../../db/repositories/photo.ts';
import { isDemoStore } from '../../db/repositories/programme.ts';
import { type Store, write } from '../../db/store.ts';
import type { ExportHead } from '../export/format.ts';
import { fillStore } from './fill.ts';
import { type OpenZip, openZip } from './open-zip.ts';
import { layPhotos } from './pictures.ts';
import { proveChecksums, readHead } from './prove.ts';
import { refuseFile } from './refusal.ts';

export interface BringBackOptions {
  readonly zip: string;
  /** Where the store will be; no server may be running on it. */
  readonly file: string;
  readonly photoDir: string;
  readonly migrationsDir: string;
  readonly copyDir: string;
  readonly now: Date;
  /** The demonstration lets anybody in, so an export of one never becomes a programme of somebody's own, nor the other way round. */
  readonly isDemo: boolean;
  /** What is known here of who was erased since, and of photos; of other programmes too, which is of no use. */
  readonly known: readonly ErasureList[];
}

/** @throws {BringBackRefusal} with one plain sentence; what was there is then as it was */
export async function bringBack(options: BringBackOptions): Promise<Returned> {
  const { file, photoDir } = options;
  refuseBegun(file);
  return withBrought(options, (head, made) => {
    putInPlace(made.store, file, made.photoDir, photoDir);
    return { head, again: made.again };
  });
}

export interface Returned {
  readonly head: ExportHead;
  readonly again: Again;
}

export interface Brought {
  readonly again: Again;
  /** A whole store of today's schema, closed. */
  readonly store: string;
  readonly photoDir: string;
}

/**
 * Makes a store and a folder of photos out of an export, beside where they will be, for as long as `use` takes.
 *
 * @throws {BringBackRefusal} with one plain sentence
 */
export async function withBrought<T>(options: BringBackOptions, use: (head: ExportHead, made: Brought) => T): Promise<T> {
  const { file, photoDir, migrationsDir, copyDir, now } = options;
  const zip = await openZip(options.zip);
  const part = `${file}.part`;
  const photoPart = `${photoDir}.part`;
  try {
    const head = await headOf(zip, newestSchema(readMigrations(migrationsDir)), options.isDemo);
    mkdirSync(dirname(file), { recursive: true });
    clear(part, photoPart);
    let again: Again;
    const store = openStore({ file: part, throwAway: true });
    try {
      // The tables as they were then; what came later changes the rows as it changed those of every store.
      migrate(store, { dir: migrationsDir, copyDir, now, upTo: head.schema });
      await fillStore(store.sqlite, zip, head);
      refuseOther({ isDemo: isDemoStore(store) === true }, options.isDemo);
      migrate(store, { dir: migrationsDir, copyDir, now });
      await layPhotos(store.sqlite, zip, photoPart);
      again = eraseAgain(store, photoPart, options);
      noteReturn(store, now, { head, again });
      store.sqlite.pragma('wal_checkpoint(TRUNCATE)');
    } finally {
      store.sqlite.close();
    }
    soundFacts(part);
    return use(head, { store: part, photoDir: photoPart, again });
  } finally {
    zip.close();
    clear(part, photoPart);
  }
}

export const newestSchema = (migrations: ReturnType<typeof readMigrations>): number => Math.max(...migrations.map(({ number }) => number));

/** What an export says of itself, once all of it was read and found whole. */
export async function provenHead(file: string, schema: number, isDemo: boolean): Promise<ExportHead> {
  const zip = await openZip(file);
  try {
    return await headOf(zip, schema, isDemo);
  } finally {
    zip.close();
  }
}

async function headOf(zip: OpenZip, schema: number, isDemo: boolean): Promise<ExportHead> {
  const head = await readHead(zip, schema);
  refuseOther(head, isDemo);
  await proveChecksums(zip);
  return head;
}

function clear(part: string, photoPart: string): void {
  for (const tail of STORE_TAILS) rmSync(part + tail, { force: true });
  rmSync(photoPart, { recursive: true, force: true });
}

function refuseBegun(file: string): void {
  if (!existsSync(file)) return;
  const store = openStore({ file });
  try {
    const known = store.sqlite.prepare("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = 'programme'").get();
    if (known !== undefined && isDemoStore(store) !== null) throw refuseFile((w) => w.begun());
  } finally {
    closeInOrder(store);
  }
}

function refuseOther(head: { readonly isDemo: boolean }, isDemo: boolean): void {
  if (head.isDemo === isDemo) return;
  throw refuseFile((w) => (head.isDemo ? w.ofDemo() : w.ofReal()));
}

/** An export knows nothing of what came after it either (criteria C27). */
function eraseAgain(store: Store, photoDir: string, { known, now }: BringBackOptions): Again {
  const again = write(store, () => eraseAsKnown(store, known, now));
  const still = photoFiles(store);
  for (const file of readdirSync(photoDir)) if (!still.has(file)) rmSync(join(photoDir, file));
  return again;
}

/** Left out of the next export, so that it is the same as this one. */
function noteReturn(store: Store, now: Date, { head, again }: Returned): void {
  const detail = returnDetail(head, again);
  write(store, () => insertAudit(store, { at: now, personId: null, action: 'programme.returned', subject: '', detail, requestId: '' }));
}

export const returnDetail = (head: ExportHead, again: Again) => ({
  ...{ madeAt: head.madeAt, entries: head.rows.entry ?? 0 },
  ...(again.knownUntil === null ? {} : againDetail(again)),
});

function putInPlace(part: string, file: string, photoPart: string, photoDir: string): void {
  // Only an empty store and its empty folder can be there: refuseBegun() looked.
  for (const tail of STORE_TAILS) rmSync(file + tail, { force: true });
  rmSync(photoDir, { recursive: true, force: true });
  syncToDisk(part);
  renameSync(photoPart, photoDir);
  renameSync(part, file);
  syncToDisk(dirname(file));
}
