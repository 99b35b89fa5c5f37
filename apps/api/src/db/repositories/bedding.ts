/** Bedding in store: what was brought, counted or thrown away, and what bins used by their entries. */
import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface BeddingMoveRow {
  readonly id: string;
  readonly siteId: string;
  readonly materialId: string;
  readonly kind: 'brought' | 'counted' | 'thrown-away';
  readonly grams: number;
  readonly note: string;
  readonly personId: string | null;
  readonly personName: string | null;
  readonly movedAt: string;
}

const READ = `SELECT m.id, m.site_id AS siteId, m.material_id AS materialId, m.kind, m.grams, m.note, m.person_id AS personId,
    p.name AS personName, m.moved_at AS movedAt FROM bedding_move m LEFT JOIN person p ON p.id = m.person_id`;

/** Newest first. */
export const beddingMoves = (store: Store, siteId: string | null): BeddingMoveRow[] =>
  all<BeddingMoveRow>(store, `${READ} WHERE @siteId IS NULL OR m.site_id = @siteId ORDER BY m.moved_at DESC, m.id DESC LIMIT 1000`, {
    siteId,
  });

export const beddingMoveById = (store: Store, id: string): BeddingMoveRow | null =>
  one<BeddingMoveRow>(store, `${READ} WHERE m.id = ?`, id);

export function insertBeddingMove(store: Store, row: Omit<BeddingMoveRow, 'personName'>): void {
  run(
    store,
    `INSERT INTO bedding_move (id, site_id, material_id, kind, grams, note, person_id, moved_at)
     VALUES (@id, @siteId, @materialId, @kind, @grams, @note, @personId, @movedAt)`,
    row,
  );
}

export interface BeddingUseRow {
  readonly siteId: string;
  readonly materialId: string;
  readonly grams: number;
  readonly usedAt: string;
}

/** Bedding that went into bins, from feedings and from care; `usual` stands for bedding of no name. */
export const beddingUses = (store: Store, siteId: string | null, usual: string): BeddingUseRow[] =>
  all<BeddingUseRow>(
    store,
    `SELECT b.site_id AS siteId, ifnull(f.bedding_material_id, @usual) AS materialId, f.bedding_g AS grams, e.happened_at AS usedAt
       FROM entry e JOIN feeding f ON f.entry_id = e.id JOIN bin b ON b.id = e.bin_id
       WHERE f.bedding_g > 0 AND e.undone_at IS NULL AND (@siteId IS NULL OR b.site_id = @siteId)
     UNION ALL
     SELECT b.site_id, ifnull(c.material_id, @usual), c.grams, e.happened_at
       FROM entry e JOIN care c ON c.entry_id = e.id JOIN bin b ON b.id = e.bin_id
       WHERE c.action = 'bedding' AND c.grams > 0 AND e.undone_at IS NULL AND (@siteId IS NULL OR b.site_id = @siteId)`,
    { siteId, usual },
  );
