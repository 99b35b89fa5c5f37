import type { Leftover } from '@middenry/domain';

/** The word for a share of food left, as an eye at the bin would choose it: halfway marks between none, a little, half, most and all. An estimate of ours. */
const FROM: readonly (readonly [number, Leftover])[] = [
  [0.85, 'all'],
  [0.6, 'most'],
  [0.35, 'half'],
  [0.02, 'little'],
];

export const leftoverOf = (leftFrac: number): Leftover => FROM.find(([from]) => leftFrac > from)?.[1] ?? 'none';
