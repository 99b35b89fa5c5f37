import { describe, expect, it } from 'vitest';
import { skillOf } from './skill.ts';

describe('skillOf()', () => {
  /** Truths drawn from the prior, one feeding in ten not logged and three checks in a hundred wrong (issue 4). */
  const { rows, ranks } = skillOf('prior', 60);

  it('beats the base rate by more than 0.3 at 7 days for airless and overfed', () => {
    const week = rows.filter(({ horizonDays }) => horizonDays === 7);
    expect(week.map(({ what }) => what)).toEqual(['airless', 'overfed']);
    for (const row of week) expect(row.skill, row.what).toBeGreaterThan(0.3);
  });

  it('has the truth anywhere among the members: no eighth empty, none with more than three times its share', () => {
    expect(ranks.reduce((sum, each) => sum + each, 0)).toBe(60);
    expect(Math.min(...ranks)).toBeGreaterThan(0);
    expect(Math.max(...ranks)).toBeLessThan((3 * 60) / 8);
  });
});
