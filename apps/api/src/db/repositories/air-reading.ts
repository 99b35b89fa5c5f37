import { all, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface AirReadingRow {
  /** Local date of the site. */
  readonly on: string;
  readonly meanC: number;
}

export const airReadings = (store: Store, span: { siteId: string; from: string; to: string }): AirReadingRow[] =>
  all<AirReadingRow>(
    store,
    'SELECT local_date AS "on", mean_c AS meanC FROM air_reading WHERE site_id = @siteId AND local_date BETWEEN @from AND @to ORDER BY local_date',
    span,
  );

/** A day that was read before is read again. */
export function putAirReading(store: Store, siteId: string, { on, meanC }: AirReadingRow): void {
  run(
    store,
    'INSERT INTO air_reading (site_id, local_date, mean_c) VALUES (?, ?, ?) ON CONFLICT (site_id, local_date) DO UPDATE SET mean_c = excluded.mean_c',
    siteId,
    on,
    meanC,
  );
}
