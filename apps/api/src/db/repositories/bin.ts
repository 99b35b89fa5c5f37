import { asc, eq, inArray, sql } from 'drizzle-orm';
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
export function listBins(store: Store, filter: BinFilter = {}): readonly BinRow[] {
  const rows = store.orm
    .select({ bin, siteName: site.name, timeZone: site.timeZone })
    .from(bin)
    .innerJoin(site, eq(site.id, bin.siteId))
    .where(filter.siteId === undefined ? undefined : eq(bin.siteId, filter.siteId))
    .orderBy(asc(site.name), asc(bin.placeOrder), asc(bin.code))
    .all();
  return withBeds(store, rows);
}

export function findBin(store: Store, id: string): BinRow | undefined {
  const rows = store.orm
    .select({ bin, siteName: site.name, timeZone: site.timeZone })
    .from(bin)
    .innerJoin(site, eq(site.id, bin.siteId))
    .where(eq(bin.id, id))
    .all();
  return withBeds(store, rows)[0];
}

export function findBinByCode(store: Store, code: string): RawBin | undefined {
  return store.orm.select().from(bin).where(eq(bin.code, code)).get();
}

interface JoinedBin {
  readonly bin: RawBin;
  readonly siteName: string;
  readonly timeZone: string;
}

function withBeds(store: Store, rows: readonly JoinedBin[]): readonly BinRow[] {
  if (rows.length === 0) return [];
  const ids = rows.map((row) => row.bin.id);
  const parts = store.orm.select().from(binStartBed).where(inArray(binStartBed.binId, ids)).orderBy(asc(binStartBed.seq)).all();
  const beds = new Map<string, BedPart[]>(ids.map((id) => [id, []]));
  for (const { binId, materialId, grams } of parts) beds.get(binId)!.push({ materialId, grams });
  return rows.map((row) => ({ ...row.bin, siteName: row.siteName, timeZone: row.timeZone, bed: beds.get(row.bin.id)! }));
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
