import type { DutyKind } from '@middenry/domain';
import { all, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface DroppedDutyRow {
  readonly binId: string;
  readonly kind: DutyKind;
  readonly dueOn: string;
  readonly urgency: number;
}

export const droppedDuties = (store: Store): DroppedDutyRow[] =>
  all(store, 'SELECT bin_id AS binId, kind, due_on AS dueOn, urgency FROM dropped_duty ORDER BY bin_id, kind');

export function dropDuty(store: Store, row: DroppedDutyRow & { readonly personId: string; readonly droppedAt: string }): void {
  run(
    store,
    `INSERT OR REPLACE INTO dropped_duty (bin_id, kind, due_on, urgency, person_id, dropped_at)
     VALUES (@binId, @kind, @dueOn, @urgency, @personId, @droppedAt)`,
    row,
  );
}

export function takeUpDuty(store: Store, row: Pick<DroppedDutyRow, 'binId' | 'kind'>): void {
  run(store, 'DELETE FROM dropped_duty WHERE bin_id = @binId AND kind = @kind', row);
}
