/** What noting an entry needs to know of its bin, its shift and its containers. */
import { all, one } from '../rows.ts';
import type { Store } from '../store.ts';

export interface EntryBinRow {
  readonly id: string;
  readonly siteId: string;
  readonly timeZone: string;
  readonly startedOn: string;
  readonly zones: number;
  readonly state: 'active' | 'resting' | 'retired';
}

export function binForEntry(store: Store, binId: string): EntryBinRow | null {
  return one<EntryBinRow>(
    store,
    `SELECT b.id, b.site_id AS siteId, s.time_zone AS timeZone, b.started_on AS startedOn, b.zones, b.state
     FROM bin b JOIN site s ON s.id = b.site_id WHERE b.id = ?`,
    binId,
  );
}

export const shiftSite = (store: Store, shiftId: string): string | null =>
  one<{ siteId: string }>(store, 'SELECT site_id AS siteId FROM shift WHERE id = ?', shiftId)?.siteId ?? null;

/** Which of these containers stand at the site. */
export function containersAtSite(store: Store, siteId: string, ids: readonly string[]): Set<string> {
  const rows = all<{ id: string }>(
    store,
    'SELECT id FROM container WHERE site_id = ? AND id IN (SELECT value FROM json_each(?))',
    siteId,
    JSON.stringify(ids),
  );
  return new Set(rows.map((row) => row.id));
}

/** Which of these bins stand at the site. */
export function binsAtSite(store: Store, siteId: string, ids: readonly string[]): Set<string> {
  const rows = all<{ id: string }>(
    store,
    'SELECT id FROM bin WHERE site_id = ? AND id IN (SELECT value FROM json_each(?))',
    siteId,
    JSON.stringify(ids),
  );
  return new Set(rows.map((row) => row.id));
}
