import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface PublishedSeasonHeadRow {
  readonly id: string;
  /** null: the whole programme. */
  readonly siteId: string | null;
  readonly siteName: string | null;
  readonly name: string;
  readonly from: string;
  readonly to: string;
  readonly publishedAt: string;
}
export interface PublishedSeasonRow extends PublishedSeasonHeadRow {
  /** The season as JSON. */
  readonly body: string;
  /** Paragraphs by section, as JSON. */
  readonly texts: string;
}

const HEAD = `p.id, p.site_id AS siteId, t.name AS siteName, p.name, p.from_date AS "from", p.to_date AS "to", p.published_at AS publishedAt`;
const FROM = 'FROM published_season p LEFT JOIN site t ON t.id = p.site_id';

/** Of these sites, or every one; the newest first. */
export const publishedSeasons = (store: Store, siteIds: readonly string[] | null): PublishedSeasonHeadRow[] =>
  all<PublishedSeasonHeadRow>(
    store,
    `SELECT ${HEAD} ${FROM} WHERE @siteIds IS NULL OR p.site_id IN (SELECT value FROM json_each(@siteIds))
     ORDER BY p.published_at DESC, p.id DESC LIMIT 500`,
    { siteIds: siteIds === null ? null : JSON.stringify(siteIds) },
  );

export const publishedSeasonById = (store: Store, id: string): PublishedSeasonRow | null =>
  one<PublishedSeasonRow>(store, `SELECT ${HEAD}, p.body, p.texts ${FROM} WHERE p.id = ?`, id);

export const insertPublishedSeason = (store: Store, row: Omit<PublishedSeasonRow, 'siteName'>): number =>
  run(
    store,
    `INSERT INTO published_season (id, site_id, name, from_date, to_date, body, texts, published_at)
     VALUES (@id, @siteId, @name, @from, @to, @body, @texts, @publishedAt)`,
    row,
  );
