import { asc, eq, sql } from 'drizzle-orm';
import { bin, binStartBed, site } from '../schema/place.ts';
import type { Store } from '../store.ts';

type RawBin = typeof bin.$inferSelect;
export interface BedPart {
  readonly materialId: string;
  readonly grams: number;
}
export interface BinRow extends RawBin {
  readonly siteName: string;
  readonly timeZone: string;
  readonly bed: readonly BedPart[];
}

interface BinFilter {
  readonly siteId?: string | undefined;
}

/** Bins in the order in which they stand. */
export function listBins(store: Store, { siteId }: BinFilter = {}): readonly BinRow[] {
  const { all, ofSite, beds } = asksOf(store);
  return withBeds(siteId === undefined ? all.all() : ofSite.all({ siteId }), beds.all());
}

export function findBin(store: Store, id: string): BinRow | undefined {
  const { byId, bedOf } = asksOf(store);
  return withBeds(byId.all({ id }), bedOf.all({ id }))[0];
}

type Asks = ReturnType<typeof prepareAsks>;
const asksOfStore = new WeakMap<Store, Asks>();

/** Put into SQL once: the board asks for all bins each time, and putting it together takes longer than reading. */
function asksOf(store: Store): Asks {
  const asks = asksOfStore.get(store) ?? prepareAsks(store);
  asksOfStore.set(store, asks);
  return asks;
}

function prepareAsks({ orm }: Store) {
  const joined = () =>
    orm
      .select({ bin, siteName: site.name, timeZone: site.timeZone })
      .from(bin)
      .innerJoin(site, eq(site.id, bin.siteId))
      .orderBy(asc(site.name), asc(bin.placeOrder), asc(bin.code))
      .$dynamic();
  const bed = () => orm.select().from(binStartBed).orderBy(asc(binStartBed.binId), asc(binStartBed.seq)).$dynamic();
  return {
    all: joined().prepare(),
    ofSite: joined()
      .where(eq(bin.siteId, sql.placeholder('siteId')))
      .prepare(),
    byId: joined()
      .where(eq(bin.id, sql.placeholder('id')))
      .prepare(),
    beds: bed().prepare(),
    bedOf: bed()
      .where(eq(binStartBed.binId, sql.placeholder('id')))
      .prepare(),
  };
}

interface JoinedBin {
  readonly bin: RawBin;
  readonly siteName: string;
  readonly timeZone: string;
}

function withBeds(rows: readonly JoinedBin[], parts: readonly (typeof binStartBed.$inferSelect)[]): readonly BinRow[] {
  const beds = new Map<string, BedPart[]>(rows.map((row) => [row.bin.id, []]));
  for (const { binId, materialId, grams } of parts) beds.get(binId)?.push({ materialId, grams });
  return rows.map((row) => ({ ...row.bin, siteName: row.siteName, timeZone: row.timeZone, bed: beds.get(row.bin.id)! }));
}

export function findBinByCode(store: Store, code: string): RawBin | undefined {
  return store.orm.select().from(bin).where(eq(bin.code, code)).get();
}

export type BinNewRow = Omit<RawBin, 'state' | 'revision'>;

export function insertBin(store: Store, row: BinNewRow, bed: readonly BedPart[]): void {
  store.orm.insert(bin).values(row).run();
  bed.forEach(
    (part, seq) =>
      void store.orm
        .insert(binStartBed)
        .values({ binId: row.id, seq, ...part })
        .run(),
  );
}

/** Every change raises the revision, so that whoever looked before can tell. */
export function updateBin(store: Store, id: string, change: Partial<Omit<RawBin, 'id' | 'revision'>>): void {
  store.orm
    .update(bin)
    .set({ ...change, revision: sql`${bin.revision} + 1` })
    .where(eq(bin.id, id))
    .run();
}
