import type { Shown } from './choice.ts';

/** What of a choice the feeding form can take over: how much, of what. */
export function logQueryOf({ mass, food }: Shown, number: (value: number, digits?: number) => string): string {
  if (mass === 0) return '';
  return `&${new URLSearchParams({ amount: 'weight', weight: number(mass, 1), food })}`;
}
