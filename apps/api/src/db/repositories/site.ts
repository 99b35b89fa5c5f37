import { asc, eq, sql } from 'drizzle-orm';
import { site } from '../schema/place.ts';
import type { Store } from '../store.ts';

export interface SiteRow {
  readonly id: string;
  readonly name: string;
  readonly timeZone: string;
  readonly note: string;
  readonly minC: readonly number[] | null;
  readonly maxC: readonly number[] | null;
  readonly archived: boolean;
}
type RawSite = typeof site.$inferSelect;

const listOf = (text: string | null): readonly number[] | null => (text === null ? null : (JSON.parse(text) as number[]));
const textOf = (list: readonly number[] | null): string | null => (list === null ? null : JSON.stringify(list));
const toSite = (raw: RawSite): SiteRow => ({ ...raw, minC: listOf(raw.minC), maxC: listOf(raw.maxC) });

export function listSites(store: Store): readonly SiteRow[] {
  return store.orm.select().from(site).orderBy(asc(site.name)).all().map(toSite);
}

export function findSite(store: Store, id: string): SiteRow | undefined {
  const ask = siteByIdOf.get(store) ?? prepareSiteById(store);
  siteByIdOf.set(store, ask);
  const raw = ask.get({ id });
  return raw === undefined ? undefined : toSite(raw);
}

/** Put into SQL once: each outlook asks for its bin's site. */
const prepareSiteById = ({ orm }: Store) =>
  orm
    .select()
    .from(site)
    .where(eq(site.id, sql.placeholder('id')))
    .prepare();
const siteByIdOf = new WeakMap<Store, ReturnType<typeof prepareSiteById>>();

export function findSiteByName(store: Store, name: string): SiteRow | undefined {
  const raw = store.orm.select().from(site).where(eq(site.name, name)).get();
  return raw === undefined ? undefined : toSite(raw);
}

export function insertSite(store: Store, row: Omit<SiteRow, 'archived'>, at: string): void {
  store.orm
    .insert(site)
    .values({ ...row, minC: textOf(row.minC), maxC: textOf(row.maxC), createdAt: at })
    .run();
}

export function updateSite(store: Store, id: string, change: Partial<Omit<SiteRow, 'id'>>): void {
  const { minC, maxC, ...rest } = change;
  const set = { ...rest, ...(minC === undefined ? {} : { minC: textOf(minC) }), ...(maxC === undefined ? {} : { maxC: textOf(maxC) }) };
  if (Object.keys(set).length > 0) store.orm.update(site).set(set).where(eq(site.id, id)).run();
}
