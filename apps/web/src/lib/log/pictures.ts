import type { Leftover, Smell, Squeeze, WormSighting } from '@middenry/domain';

/** Line pictures in a 64 x 48 box, since at the bin people would rather look than read. */
export interface Picture {
  readonly lines: string;
  readonly solids: string;
}

const HAND =
  'M17 8c0-4 7-4 7.5 0c.5-4 7.5-4 8 0c.5-4 7.5-4 8 0c1-4 7-3 7 1v11c0 6-5 9-11 9H27c-6 0-10-3-10-8ZM24.5 8v8M32.5 8v8M40.5 8v8M17 19c6-3 12-2 13 1s-3 4-7 4';
const drop = (x: number, y: number) => `M${x} ${y}c2 3 3 4.5 3 6a3 3 0 0 1-6 0c0-1.5 1-3 3-6Z`;
const BOX = 'M10 4H54V44H10Z';
const scrap = ([x, y]: readonly [number, number]) => `M${x} ${y}l4-2l3 3l-2 4l-4 0Z`;
const SPOTS: readonly (readonly [number, number])[] = [
  [14, 34],
  [24, 36],
  [34, 33],
  [44, 35],
  [18, 25],
  [29, 26],
  [40, 24],
  [14, 16],
  [25, 16],
  [35, 15],
  [45, 16],
  [18, 8],
  [30, 8],
  [42, 8],
];
const food = (pieces: number): Picture => ({ lines: BOX, solids: SPOTS.slice(0, pieces).map(scrap).join('') });
const WORMS: readonly (readonly [number, number])[] = [
  [24, 24],
  [8, 12],
  [38, 12],
  [8, 36],
  [40, 36],
  [22, 8],
  [24, 40],
  [44, 24],
];
const wormLines = (n: number): Picture => ({
  lines:
    n === 0
      ? 'M8 40H56'
      : WORMS.slice(0, n)
          .map(([x, y]) => `M${x} ${y}q4-6 8 0t8 0`)
          .join(''),
  solids: '',
});

export const SQUEEZE_PICTURES: Readonly<Record<Squeeze, Picture>> = {
  crumbles: { lines: HAND, solids: 'M20 34h4v4h-4zM30 38h3v3h-3zM38 33h4v4h-4zM26 43h3v3h-3zM44 41h3v3h-3z' },
  damp: { lines: `${HAND}M26 36h12`, solids: '' },
  'one-two-drops': { lines: HAND, solids: drop(28, 34) + drop(37, 37) },
  'few-drops': { lines: HAND, solids: drop(21, 34) + drop(30, 38) + drop(38, 33) + drop(45, 38) },
  trickle: { lines: `${HAND}M27 32c-2 4 2 6 0 14M33 32c-2 4 2 6 0 14M39 32c-2 4 2 6 0 14`, solids: '' },
};
export const LEFTOVER_PICTURES: Readonly<Record<Leftover, Picture>> = {
  none: food(0),
  little: food(2),
  half: food(7),
  most: food(11),
  all: food(14),
};
export const SMELL_PICTURES: Readonly<Record<Smell, Picture>> = {
  earthy: { lines: 'M32 44V20M32 30C20 30 16 22 16 12c10 0 16 6 16 18ZM32 26c0-10 5-16 16-17c1 10-6 17-16 17Z', solids: '' },
  sour: { lines: 'M27 4h10v9l5 7v24H22V20l5-7ZM22 28h20', solids: '' },
  rotten: { lines: 'M32 5c9 0 15 14 15 23a15 15 0 0 1-30 0C17 19 23 5 32 5ZM18 25l6 4l5-6l6 6l5-6l6 4', solids: '' },
  ammonia: { lines: 'M12 40c6-10 0-16 4-26M28 42c6-12 0-20 4-32M44 40c6-10 0-16 4-26', solids: '' },
};
export const WORM_PICTURES: Readonly<Record<WormSighting, Picture>> = {
  none: wormLines(0),
  few: wormLines(1),
  some: wormLines(4),
  many: wormLines(8),
};
