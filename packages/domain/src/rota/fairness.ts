import { shiftsByPerson, tableOf } from './table.ts';
import type { FoundRota, RotaSpec } from './types.ts';

/** One person's places held against wished, before the proposals and after all of them are accepted. */
export interface FairnessRow {
  readonly personId: string;
  readonly wish: number;
  /** Most places this person could hold. */
  readonly possible: number;
  /** min(wish, possible): what fairness is measured against. */
  readonly target: number;
  readonly heldBefore: number;
  readonly heldAfter: number;
  readonly shortfallBefore: number;
  readonly shortfallAfter: number;
}

export interface FairnessTotals {
  readonly held: number;
  readonly largestShortfall: number;
  readonly squaredShortfalls: number;
  readonly peopleBelow: number;
}

export interface FairnessReport {
  readonly rows: readonly FairnessRow[];
  readonly before: FairnessTotals;
  readonly after: FairnessTotals;
}

/**
 * Places held against wished, before and after.
 *
 * @shape spec, rota -> rows by person, those furthest below first; totals
 */
export function fairnessOf(spec: RotaSpec, { proposals, possible }: Pick<FoundRota, 'proposals' | 'possible'>): FairnessReport {
  const table = tableOf(spec);
  const before = shiftsByPerson(table, spec.signUps);
  const added = shiftsByPerson(table, proposals);
  const rows = table.people.map(({ id, wish }): FairnessRow => {
    const most = possible[id] ?? 0;
    const target = Math.min(wish, most);
    const heldBefore = before.get(id)?.length ?? 0;
    const heldAfter = heldBefore + (added.get(id)?.length ?? 0);
    const below = (held: number): number => Math.max(0, target - held);
    return {
      personId: id,
      wish,
      possible: most,
      target,
      heldBefore,
      heldAfter,
      shortfallBefore: below(heldBefore),
      shortfallAfter: below(heldAfter),
    };
  });
  return {
    rows: rows.sort((one, other) => other.shortfallAfter - one.shortfallAfter),
    before: totalsOf(rows.map(({ heldBefore, shortfallBefore }) => [heldBefore, shortfallBefore])),
    after: totalsOf(rows.map(({ heldAfter, shortfallAfter }) => [heldAfter, shortfallAfter])),
  };
}

function totalsOf(rows: readonly (readonly [held: number, shortfall: number])[]): FairnessTotals {
  const shortfalls = rows.map(([, shortfall]) => shortfall);
  return {
    held: rows.reduce((sum, [held]) => sum + held, 0),
    largestShortfall: Math.max(0, ...shortfalls),
    squaredShortfalls: shortfalls.reduce((sum, shortfall) => sum + shortfall * shortfall, 0),
    peopleBelow: shortfalls.filter((shortfall) => shortfall > 0).length,
  };
}
