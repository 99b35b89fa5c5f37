import { describe, expect, it } from 'vitest';
import { AS_PEOPLE_DO } from './history.ts';
import { pointsOf, skillOf } from './skill.ts';

const HISTORIES = 60;
const MEMBERS = 64;

describe('skillOf()', () => {
  /** Truths drawn from the prior, one feeding in ten not logged and three checks in a hundred wrong (issue 4). */
  const { rows, ranks } = skillOf('prior', HISTORIES, AS_PEOPLE_DO, MEMBERS);

  it('beats the base rate by more than 0.3 at 7 days for airless and overfed', () => {
    const week = rows.filter(({ horizonDays }) => horizonDays === 7);
    expect(week.map(({ what }) => what)).toEqual(['airless', 'overfed']);
    for (const row of week) expect(row.skill, row.what).toBeGreaterThan(0.3);
  });

  it('has the truth anywhere among the members: no eighth empty, none with more than three times its share', () => {
    const { counts } = ranks[0]!;
    expect(counts.reduce((sum, each) => sum + each, 0)).toBe(HISTORIES);
    expect(Math.min(...counts)).toBeGreaterThan(0);
    expect(Math.max(...counts)).toBeLessThan((3 * HISTORIES) / 8);
  });
});

describe('pointsOf()', () => {
  const pairs = (count: number, forecast: number) => Array.from({ length: count }, (_, i) => ({ forecast, happened: i % 2 === 0 }));

  it('takes neighbours together until each point has a hundred histories, and loses none', () => {
    const points = pointsOf([...pairs(300, 0.1), ...pairs(30, 0.3), ...pairs(80, 0.5), ...pairs(150, 0.7), ...pairs(99, 0.9)]);
    expect(points.map(({ histories }) => histories)).toEqual([300, 110, 249]);
    expect(points[1]?.forecast).toBeCloseTo((30 * 0.3 + 80 * 0.5) / 110, 12);
    expect(pointsOf(pairs(40, 0.25))).toEqual([{ forecast: 0.25, happened: 0.5, histories: 40 }]);
  });
});
