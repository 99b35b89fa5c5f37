import { one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface ClimateFactorsRow {
  /** As JSON. */
  readonly factors: string;
  readonly confirmedAt: string;
}

/** null: climate gases are left out. */
export const findClimateFactors = (store: Store): ClimateFactorsRow | null =>
  one<ClimateFactorsRow>(store, 'SELECT factors, confirmed_at AS confirmedAt FROM climate_factors');

export const putClimateFactors = (store: Store, row: ClimateFactorsRow): number =>
  run(store, 'INSERT OR REPLACE INTO climate_factors (one, factors, confirmed_at) VALUES (1, @factors, @confirmedAt)', row);

export const deleteClimateFactors = (store: Store): number => run(store, 'DELETE FROM climate_factors');
