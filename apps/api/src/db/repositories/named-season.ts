import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface NamedSeasonRow {
  readonly id: string;
  /** null: the whole programme. */
  readonly siteId: string | null;
  readonly siteName: string | null;
  readonly name: string;
  readonly from: string;
  readonly to: string;
  /** Paragraphs by section, as JSON. */
  readonly texts: string;
  readonly revision: number;
}

const READ = `SELECT s.id, s.site_id AS siteId, t.name AS siteName, s.name, s.from_date AS "from", s.to_date AS "to", s.texts,
    s.revision
  FROM season s LEFT JOIN site t ON t.id = s.site_id`;

/** Those of these sites and of the whole programme, the latest first. */
export const namedSeasons = (store: Store, siteIds: readonly string[] | null): NamedSeasonRow[] =>
  all<NamedSeasonRow>(
    store,
    `${READ} WHERE @siteIds IS NULL OR s.site_id IS NULL OR s.site_id IN (SELECT value FROM json_each(@siteIds))
     ORDER BY s.from_date DESC, s.name`,
    { siteIds: siteIds === null ? null : JSON.stringify(siteIds) },
  );

export const namedSeasonById = (store: Store, id: string): NamedSeasonRow | null =>
  one<NamedSeasonRow>(store, `${READ} WHERE s.id = ?`, id);

/** Whether another one of the same site bears this name. */
export const seasonNameTaken = (store: Store, season: { id: string; siteId: string | null; name: string }): boolean =>
  one(store, "SELECT 1 FROM season WHERE name = @name AND ifnull(site_id, '') = ifnull(@siteId, '') AND id <> @id", season) !== null;

export const insertNamedSeason = (
  store: Store,
  row: Omit<NamedSeasonRow, 'siteName' | 'texts' | 'revision'> & { readonly createdAt: string },
): number =>
  run(
    store,
    'INSERT INTO season (id, site_id, name, from_date, to_date, created_at) VALUES (@id, @siteId, @name, @from, @to, @createdAt)',
    row,
  );

export const updateNamedSeason = (store: Store, row: Pick<NamedSeasonRow, 'id' | 'name' | 'from' | 'to' | 'texts'>): number =>
  run(
    store,
    'UPDATE season SET name = @name, from_date = @from, to_date = @to, texts = @texts, revision = revision + 1 WHERE id = @id',
    row,
  );

export const deleteNamedSeason = (store: Store, id: string): number => run(store, 'DELETE FROM season WHERE id = ?', id);
