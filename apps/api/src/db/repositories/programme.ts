import { eq } from 'drizzle-orm';
import { programme } from '../schema/place.ts';
import type { Store } from '../store.ts';

export type ProgrammeRow = typeof programme.$inferSelect;
type ProgrammeNewRow = Omit<ProgrammeRow, 'one' | 'photosOfPeople'>;

/** The one programme of this store, or undefined before it has been set up. */
export function findProgramme(store: Store): ProgrammeRow | undefined {
  return store.orm.select().from(programme).get();
}

/** Whether what has begun in a store of any schema is a demonstration; null: nothing has. */
export const isDemoStore = (store: Store): boolean | null => {
  const isDemo = store.sqlite.prepare('SELECT is_demo FROM programme').pluck().get();
  return isDemo === undefined ? null : isDemo === 1;
};

export function insertProgramme(store: Store, row: ProgrammeNewRow): void {
  store.orm.insert(programme).values(row).run();
}

export function updateProgramme(
  store: Store,
  id: string,
  change: Partial<Pick<ProgrammeRow, 'name' | 'units' | 'locale' | 'photosOfPeople'>>,
): void {
  if (Object.keys(change).length > 0) store.orm.update(programme).set(change).where(eq(programme.id, id)).run();
}
