import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface SeasonPhotoRow {
  readonly photoId: string;
  readonly alt: string;
  readonly takenAt: string;
  readonly binCode: string;
  readonly width: number;
  readonly height: number;
}

const COLUMNS = 'p.id AS photoId, p.taken_at AS takenAt, b.code AS binCode, p.width, p.height';
/** With `v` of each, which says whether it may be shown. */
const PHOTOS = 'photo p JOIN bin b ON b.id = p.bin_id JOIN photo_showing v ON v.photo_id = p.id';
const MAY_REPORT = `v.state = 'shown' AND v.reports = 1
  AND NOT EXISTS (SELECT 1 FROM entry e WHERE e.id = p.entry_id AND e.undone_at IS NOT NULL)`;

/** Only those that may be shown now; `chosen` counts them all. */
export const seasonPhotos = (store: Store, id: string): { rows: SeasonPhotoRow[]; chosen: number } => ({
  rows: all<SeasonPhotoRow>(
    store,
    `SELECT ${COLUMNS}, s.alt FROM season_photo s, ${PHOTOS} WHERE p.id = s.photo_id AND s.season_id = ? AND ${MAY_REPORT} ORDER BY s.seq`,
    id,
  ),
  chosen: one<{ n: number }>(store, 'SELECT count(*) AS n FROM season_photo WHERE season_id = ?', id)!.n,
});

export const publishedSeasonPhotos = (store: Store, id: string): { rows: SeasonPhotoRow[]; chosen: number } => ({
  rows: all<SeasonPhotoRow>(
    store,
    `SELECT ${COLUMNS}, s.alt FROM published_season_photo s, ${PHOTOS}
     WHERE p.id = s.photo_id AND s.published_season_id = ? AND ${MAY_REPORT} ORDER BY s.seq`,
    id,
  ),
  chosen: one<{ n: number }>(store, 'SELECT count(*) AS n FROM published_season_photo WHERE published_season_id = ?', id)!.n,
});

/** Of these days and this site, or every site; the newest first. */
export const photosForReport = (
  store: Store,
  range: { readonly siteId: string | null; readonly from: string; readonly to: string },
  limit: number,
): SeasonPhotoRow[] =>
  all<SeasonPhotoRow>(
    store,
    `SELECT ${COLUMNS}, p.alt FROM ${PHOTOS} WHERE (@siteId IS NULL OR b.site_id = @siteId)
       AND substr(p.taken_at, 1, 10) BETWEEN @from AND @to AND ${MAY_REPORT}
     ORDER BY p.taken_at DESC, p.id DESC LIMIT @limit`,
    { siteId: range.siteId, from: range.from, to: range.to, limit },
  );

/** Whether a report of this site, or of every one, may show it. */
export const mayReport = (store: Store, photoId: string, siteId: string | null): boolean =>
  one(store, `SELECT 1 FROM ${PHOTOS} WHERE p.id = @photoId AND (@siteId IS NULL OR b.site_id = @siteId) AND ${MAY_REPORT}`, {
    photoId,
    siteId,
  }) !== null;

export function putSeasonPhotoRows(
  store: Store,
  seasonId: string,
  photos: readonly { readonly photoId: string; readonly alt: string }[],
): void {
  run(store, 'DELETE FROM season_photo WHERE season_id = ?', seasonId);
  photos.forEach(({ photoId, alt }, seq) => {
    run(store, 'INSERT INTO season_photo (season_id, seq, photo_id, alt) VALUES (?, ?, ?, ?)', seasonId, seq, photoId, alt);
  });
}

/** Those of the season of the same name, site and days, as a report of it is published. */
export const publishSeasonPhotos = (
  store: Store,
  report: { readonly id: string; readonly siteId: string | null; readonly name: string; readonly from: string; readonly to: string },
): number =>
  run(
    store,
    `INSERT INTO published_season_photo (published_season_id, seq, photo_id, alt)
     SELECT @id, row_number() OVER (ORDER BY s.seq) - 1, s.photo_id, s.alt
     FROM season_photo s, season n, ${PHOTOS} WHERE n.id = s.season_id AND p.id = s.photo_id
       AND n.name = @name AND ifnull(n.site_id, '') = ifnull(@siteId, '') AND n.from_date = @from AND n.to_date = @to
       AND ${MAY_REPORT}`,
    { id: report.id, siteId: report.siteId, name: report.name, from: report.from, to: report.to },
  );
