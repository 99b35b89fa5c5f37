import type { Outlook } from '@middenry/domain';
import { expect, test } from 'vitest';
import { budgetOf, bytesOf } from './outlook-budget.ts';

test('F27: what was asked for longest ago makes room, and the last one stays however large', () => {
  const gone: string[] = [];
  const budget = budgetOf(100);
  const use = (id: string, bytes: number) => budget.use(id, bytes, () => gone.push(id));
  use('a', 40);
  use('b', 40);
  use('a', 40);
  expect(gone).toEqual([]);
  use('c', 40);
  expect(gone).toEqual(['b']);
  use('c', 90);
  expect(gone).toEqual(['b', 'a']);
  use('d', 500);
  expect(gone).toEqual(['b', 'a', 'c']);
  use('e', 10);
  expect(gone).toEqual(['b', 'a', 'c', 'd']);
});

test('bytesOf() grows with the days that an outlook holds', () => {
  const withDays = (history: number) => bytesOf({ history: Array.from({ length: history }), forecast: [] } as unknown as Outlook);
  expect(withDays(800) - withDays(84)).toBe((withDays(84) - withDays(0)) * (716 / 84));
});
