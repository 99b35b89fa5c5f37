/** Moves what was made of an export into the store that is open, in one transaction. */
import { renameSync, rmSync } from 'node:fs';
import { emptyTable, moveTable } from '../../db/portable/move.ts';
import { tableNames } from '../../db/portable/shape.ts';
import { type Store, write } from '../../db/store.ts';
import { EXPORTED } from '../export/dictionary/registry.ts';
import { refuseFile } from './refusal.ts';

/** How this machine came to its tables stays its own, and what open pages are told comes by itself. */
const STAYS: readonly string[] = ['applied_migration', 'change'];

interface Made {
  readonly store: string;
  readonly photoDir: string;
}

/**
 * @param before What must still be so once nobody else can write
 * @param after What belongs to the same transaction
 */
export function moveIn<T>(store: Store, made: Made, photoDir: string, steps: { before(): void; after(): T }): T {
  const { sqlite } = store;
  sqlite.prepare('ATTACH ? AS brought').run(made.store);
  try {
    return write(store, () => {
      steps.before();
      // Rows point at each other both ways round.
      sqlite.pragma('defer_foreign_keys = ON');
      copyRows(store);
      const answer = steps.after();
      rmSync(photoDir, { recursive: true, force: true });
      // Photos of no row are swept away at the next start, so this comes before the commit and not after it.
      renameSync(made.photoDir, photoDir);
      return answer;
    });
  } finally {
    sqlite.exec('DETACH brought');
  }
}

function copyRows({ sqlite }: Store): void {
  const names = tableNames(sqlite).filter((name) => !STAYS.includes(name));
  // Some rules look at rows that come before, as an export has them in order.
  const order = [...EXPORTED.map(({ table }) => table), ...names.filter((name) => !EXPORTED.some(({ table }) => table === name))];
  for (const name of order.toReversed()) emptyTable(sqlite, name);
  for (const name of order) moveTable(sqlite, name, 'brought');
  const [broken] = sqlite.pragma('main.foreign_key_check') as { table: string; parent: string }[];
  if (broken !== undefined) throw refuseFile((w) => w.brokenLink(broken.table, broken.parent));
}
