/**
 * Who was erased, which consents were withdrawn, which photos were taken off and in which somebody can be seen, as a list
 * beside the backups: ids and days, never a name.
 * A backup from before brings people back; this list travels with it and takes them out again (criteria F9, C25, C27).
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { listBackups } from './backup.ts';
import { syncToDisk } from './verify.ts';

export interface Gone {
  readonly id: string;
  /** A day in UTC. */
  readonly on: string;
}
/** A photo of which somebody said that people are in it. */
export interface Marked extends Gone {
  /** Ids of who is in it; empty: nobody has said. */
  readonly people: readonly string[];
}
export interface Erasures {
  /** Id of the programme; the list of another one says nothing of this. */
  readonly programme: string | null;
  readonly erased: readonly Gone[];
  readonly withdrawn: readonly Gone[];
  readonly photosGone: readonly Gone[];
  readonly marked: readonly Marked[];
}
export interface ErasureList extends Erasures {
  readonly writtenAt: string;
}

type Name = 'own' | 'demo';
const LIST = /^(own|demo)-erased-\d{4}-\d{2}-\d{2}T\d{2}-\d{2}-\d{2}-\d{3}Z\.json$/;

/** Lists in a folder, the newest first. Each has a name of its own, as a copy made elsewhere may never write over what it has. */
export const erasureLists = (dir: string, name: Name): string[] =>
  existsSync(dir)
    ? readdirSync(dir)
        .filter((file) => LIST.test(file) && file.startsWith(name))
        .sort()
        .reverse()
        .map((file) => join(dir, file))
    : [];
const nameOfBackup = (backup: string): Name => (/(^|[/\\])demo-[^/\\]*$/.test(backup) ? 'demo' : 'own');

const MARKED = `SELECT p.id, substr(ifnull(p.people_at, p.received_at), 1, 10) AS "on",
    (SELECT json_group_array(n.person_id) FROM photo_person n WHERE n.photo_id = p.id) AS people
  FROM photo p WHERE p.people = 'some' ORDER BY p.id`;

/** What a store itself knows of it. One of an older schema knows less. */
export function erasuresIn(sqlite: Database.Database): Erasures {
  const rows = (sql: string): (Gone & { readonly people?: unknown })[] => {
    try {
      return sqlite.prepare(sql).all() as Gone[];
    } catch {
      return [];
    }
  };
  const programme = rows('SELECT id, substr(created_at, 1, 10) AS "on" FROM programme')[0]?.id ?? null;
  return {
    programme,
    erased: rows('SELECT id, substr(erased_at, 1, 10) AS "on" FROM person WHERE erased_at IS NOT NULL ORDER BY id'),
    withdrawn: rows('SELECT id, substr(withdrawn_at, 1, 10) AS "on" FROM consent WHERE withdrawn_at IS NOT NULL ORDER BY id'),
    photosGone: rows('SELECT id, gone_on AS "on" FROM photo_gone ORDER BY id'),
    marked: rows(MARKED).map(({ id, on, people }) => ({ id, on, people: JSON.parse(String(people)) as string[] })),
  };
}

/** A new list when there is something new; whoever stood in the last one stands in it too. */
export function writeErasures(sqlite: Database.Database, place: { readonly dir: string; readonly name: Name; readonly now: Date }): void {
  const { dir, name, now } = place;
  const before = erasureLists(dir, name);
  const last = knownIn(before);
  const here = erasuresIn(sqlite);
  const list = together(here, last === null ? null : { ...last, marked: stillMarked(sqlite, last) });
  if (last !== null && last.programme === list.programme && saidBy(last) === saidBy(list)) return;
  mkdirSync(dir, { recursive: true });
  const file = join(dir, `${name}-erased-${now.toISOString().replace(/[:.]/g, '-')}.json`);
  writeFileSync(`${file}.part`, JSON.stringify({ writtenAt: now.toISOString(), ...list }, null, 2), { flush: true });
  renameSync(`${file}.part`, file);
  syncToDisk(dir);
  for (const one of before) if (one !== file) rmSync(one, { force: true });
}

/** Of a photo that is here, what is said now counts: it may have been nobody after all. */
const stillMarked = (sqlite: Database.Database, { marked }: Erasures): Marked[] => {
  const isHere = sqlite.prepare('SELECT 1 FROM photo WHERE id = ?');
  return marked.filter(({ id }) => isHere.get(id) === undefined);
};

/** The same for two lists that say the same. */
const saidBy = ({ erased, withdrawn, photosGone, marked }: Erasures): string =>
  JSON.stringify([erased, withdrawn, photosGone, marked].map((part) => [...part].sort((a, b) => (a.id < b.id ? -1 : 1))));

/** What the newest list says that can be read. */
function knownIn(files: readonly string[]): ErasureList | null {
  for (const file of files) {
    const list = readErasureList(file);
    if (list !== null) return list;
  }
  return null;
}

/** null: it cannot be read. */
export function readErasureList(file: string): ErasureList | null {
  try {
    const list = JSON.parse(readFileSync(file, 'utf8')) as Partial<ErasureList>;
    const isGone = (one: Gone) => typeof one.id === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(one.on);
    // Lists of older releases know nothing of photos.
    const { writtenAt, programme = null, erased, withdrawn, photosGone = [], marked = [] } = list;
    if (typeof writtenAt !== 'string' || !erased?.every(isGone) || !withdrawn?.every(isGone)) return null;
    if (!photosGone.every(isGone) || !marked.every((one) => isGone(one) && Array.isArray(one.people))) return null;
    return { writtenAt, programme, erased, withdrawn, photosGone, marked };
  } catch {
    return null;
  }
}

/** What is known beside a backup: by the list there, and by the newest backup, which carries what was known when it was made. */
export const erasuresBeside = (backup: string): ErasureList | null => erasuresInFolder(dirname(backup), nameOfBackup(backup), backup);

/** @param backup One of which alone nothing newer is known; left out, whatever the folder says is of use */
export function erasuresInFolder(dir: string, name: Name, backup?: string): ErasureList | null {
  const list = knownIn(erasureLists(dir, name));
  const newest = listBackups(dir, name)[0];
  if (newest === undefined) return list;
  const carried = erasuresOf(newest.file);
  const isOurs = list?.programme === carried.programme;
  // A backup knows nothing of what came after it.
  if (newest.file === backup && !isOurs) return null;
  const writtenAt = [isOurs ? list.writtenAt : '', newest.manifest.madeAt].sort().at(-1)!;
  return { ...together(carried, list), writtenAt };
}

function erasuresOf(file: string): Erasures {
  const sqlite = new Database(file, { readonly: true, fileMustExist: true });
  try {
    return erasuresIn(sqlite);
  } finally {
    sqlite.close();
  }
}

export function together(first: Erasures, second: Erasures | null): Erasures {
  if (second === null || second.programme !== first.programme) return first;
  const union = <T extends Gone>(a: readonly T[], b: readonly T[]): T[] => [...new Map([...b, ...a].map((one) => [one.id, one])).values()];
  return {
    programme: first.programme,
    erased: union(first.erased, second.erased),
    withdrawn: union(first.withdrawn, second.withdrawn),
    photosGone: union(first.photosGone, second.photosGone),
    marked: union(first.marked, second.marked),
  };
}
