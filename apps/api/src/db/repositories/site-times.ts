import type { DutyKind } from '@middenry/domain';
import { all, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface OpeningRow {
  readonly weekday: number;
  readonly from: string;
  readonly to: string;
}
export interface ClosedRow {
  readonly from: string;
  readonly to: string;
  readonly label: string;
}
export interface DutyMinutesRow {
  readonly kind: DutyKind;
  readonly minutes: number;
}

export const openingsOf = (store: Store, siteId: string): OpeningRow[] =>
  all(store, 'SELECT weekday, from_time AS "from", to_time AS "to" FROM site_opening WHERE site_id = ? ORDER BY weekday', siteId);

export const closedOf = (store: Store, siteId: string): ClosedRow[] =>
  all(store, 'SELECT from_date AS "from", to_date AS "to", label FROM site_closed WHERE site_id = ? ORDER BY from_date, to_date', siteId);

export const ownMinutesOf = (store: Store, siteId: string): DutyMinutesRow[] =>
  all(store, 'SELECT kind, minutes FROM site_duty_minutes WHERE site_id = ? ORDER BY kind', siteId);

export function setOpenings(store: Store, siteId: string, rows: readonly OpeningRow[]): void {
  run(store, 'DELETE FROM site_opening WHERE site_id = ?', siteId);
  for (const row of rows)
    run(store, 'INSERT INTO site_opening (site_id, weekday, from_time, to_time) VALUES (@siteId, @weekday, @from, @to)', {
      ...row,
      siteId,
    });
}

export function setClosed(store: Store, siteId: string, rows: readonly ClosedRow[]): void {
  run(store, 'DELETE FROM site_closed WHERE site_id = ?', siteId);
  for (const row of rows)
    run(store, 'INSERT OR REPLACE INTO site_closed (site_id, from_date, to_date, label) VALUES (@siteId, @from, @to, @label)', {
      ...row,
      siteId,
    });
}

export function setOwnMinutes(store: Store, siteId: string, rows: readonly DutyMinutesRow[]): void {
  run(store, 'DELETE FROM site_duty_minutes WHERE site_id = ?', siteId);
  for (const row of rows)
    run(store, 'INSERT OR REPLACE INTO site_duty_minutes (site_id, kind, minutes) VALUES (@siteId, @kind, @minutes)', { ...row, siteId });
}
