import { type Pairing, type Proposal, type RotaSpec, SCORE_PARTS, type Score } from '@middenry/domain';
import { adultFaults, ruleFaults } from '../../../packages/domain/src/rota/check.ts';
import { judgedScore } from '../../../packages/domain/src/rota/check-score.ts';

export const vectorOf = (score: Score): readonly number[] => SCORE_PARTS.map((part) => score[part]);

export function isBetter(one: Score, other: Score): boolean {
  const part = SCORE_PARTS.find((name) => one[name] !== other[name]);
  return part !== undefined && one[part] < other[part];
}

/** The best score of all, by trying every set of people and places that keeps the rules. */
export function bestByTrying(spec: RotaSpec, possible: Readonly<Record<string, number>>): { score: Score; tried: number } {
  const pairings = spec.people.flatMap(({ id: personId }) => spec.shifts.map(({ id: shiftId }): Pairing => ({ personId, shiftId })));
  let best: Score | null = null;
  let tried = 0;
  const tryFrom = (index: number, proposals: readonly Proposal[]): void => {
    const pairing = pairings[index];
    if (!pairing) {
      if (adultFaults(spec, proposals).length > 0) return;
      tried += 1;
      const score = judgedScore(spec, { proposals, possible });
      if (best === null || isBetter(score, best)) best = score;
      return;
    }
    tryFrom(index + 1, proposals);
    const groups = spec.shifts.find(({ id }) => id === pairing.shiftId)?.places ?? [];
    // Any rule but the adult rule that is broken now stays broken, so nothing is missed by stopping here.
    groups.forEach((_, group) => {
      const more = [...proposals, { ...pairing, group }];
      if (ruleFaults(spec, more).length === 0) tryFrom(index + 1, more);
    });
  };
  tryFrom(0, []);
  if (best === null) throw new Error('asking nobody must always be allowed');
  return { score: best, tried };
}
