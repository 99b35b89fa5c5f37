/**
 * Who was erased and which consents were withdrawn, as a list beside the backups: ids and days, never a name.
 * A backup from before brings people back; this list travels with it and takes them out again (criteria F9, C27).
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
export interface Erasures {
  /** Id of the programme; the list of another one says nothing of this. */
  readonly programme: string | null;
  readonly erased: readonly Gone[];
  readonly withdrawn: readonly Gone[];
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

/** What a store itself knows of it. One of an older schema knows less. */
export function erasuresIn(sqlite: Database.Database): Erasures {
  const rows = (sql: string): Gone[] => {
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
  };
}

/** A new list when there is something new; whoever stood in the last one stands in it too. */
export function writeErasures(sqlite: Database.Database, place: { readonly dir: string; readonly name: Name; readonly now: Date }): void {
  const { dir, name, now } = place;
  const before = erasureLists(dir, name);
  const last = knownIn(before);
  const list = together(erasuresIn(sqlite), last);
  if (last !== null && last.programme === list.programme && sizeOf(last) === sizeOf(list)) return;
  mkdirSync(dir, { recursive: true });
  const file = join(dir, `${name}-erased-${now.toISOString().replace(/[:.]/g, '-')}.json`);
  writeFileSync(`${file}.part`, JSON.stringify({ writtenAt: now.toISOString(), ...list }, null, 2), { flush: true });
  renameSync(`${file}.part`, file);
  syncToDisk(dir);
  for (const one of before) if (one !== file) rmSync(one, { force: true });
}

const sizeOf = ({ erased, withdrawn }: Erasures): number => erased.length + withdrawn.length;

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
    const { writtenAt, programme = null, erased, withdrawn } = list;
    if (typeof writtenAt !== 'string' || !erased?.every(isGone) || !withdrawn?.every(isGone)) return null;
    return { writtenAt, programme, erased, withdrawn };
  } catch {
    return null;
  }
}

/** What is known beside a backup: by the list there, and by the newest backup, which carries what was known when it was made. */
export function erasuresBeside(backup: string): ErasureList | null {
  const dir = dirname(backup);
  const name = nameOfBackup(backup);
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
  const union = (a: readonly Gone[], b: readonly Gone[]) => [...new Map([...b, ...a].map((one) => [one.id, one])).values()];
  return { programme: first.programme, erased: union(first.erased, second.erased), withdrawn: union(first.withdrawn, second.withdrawn) };
}
