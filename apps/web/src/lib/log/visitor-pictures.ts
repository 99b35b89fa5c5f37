import type { Visitor } from '@middenry/domain';
import type { Picture } from './pictures.ts';

/** Who else lives in a bin, as somebody sees it who bends over it: outline and way of standing, no anatomy. */

const dot = (x: number, y: number, r: number, ry = r) => `M${x - r} ${y}a${r} ${ry} 0 1 0 ${2 * r} 0a${r} ${ry} 0 1 0 ${-2 * r} 0Z`;
/** A round body no larger than a full stop, on eight legs. */
const mite = (x: number, y: number): Picture => ({
  lines: `M${x - 8} ${y - 5}l4 3M${x - 9} ${y}h4M${x - 8} ${y + 5}l4-3M${x - 4} ${y + 8}l2-4M${x + 8} ${y - 5}l-4 3M${x + 9} ${y}h-4M${x + 8} ${y + 5}l-4-3M${x + 4} ${y + 8}l-2-4`,
  solids: dot(x, y, 5),
});
const thread = ([x, y]: readonly [number, number]) => `M${x} ${y}q2-5 4 0t4 0t4 0`;
const both = (a: Picture, b: Picture): Picture => ({ lines: a.lines + b.lines, solids: a.solids + b.solids });

const ANT_LEGS = 'M27 27L18 34L12 33M31 28L26 38L20 43M35 27L44 36L48 42M27 21L18 14L12 15M31 20L26 10L20 6M35 21L44 12L48 6';
const CENTIPEDE_LEGS = [14, 20, 26, 32, 38, 44].map((x) => `M${x} 20l-4-10M${x} 28l-4 10`).join('');

export const VISITOR_PICTURES: Readonly<Record<Visitor, Picture>> = {
  'fruit-flies': {
    lines: 'M35 20C46 8 60 14 56 25C52 33 41 30 35 25M29 20C18 8 4 14 8 25C12 33 23 30 29 25M28 34l-7 8M36 34l7 8',
    solids: dot(32, 28, 5, 11) + dot(28, 13, 4) + dot(36, 13, 4),
  },
  'fungus-gnats': {
    lines:
      'M32 16V40M31 10C29 6 25 4 20 4M33 10C35 6 39 4 44 4M32 18L20 13L12 26M32 20L16 26L9 42M32 22L23 33L21 46M32 18L44 13L52 26M32 20L48 26L55 42M32 22L41 33L43 46',
    solids: `${dot(32, 12, 3)}M30 18h4l1 10l-2 14h-2l-2-14Z`,
  },
  'soldier-fly-larvae': {
    lines: 'M5 24C7 17 20 12 34 12C48 12 58 18 58 24C58 30 48 36 34 36C20 36 7 31 5 24ZM17 15.5v17M25 13v22M34 12v24M43 13v22M51 16v16',
    solids: 'M4 24L12 19V29Z',
  },
  mites: both(both(mite(16, 14), mite(44, 12)), both(mite(30, 34), mite(54, 36))),
  springtails: {
    lines:
      'M14 24C14 18 24 15 36 16C46 17 51 21 51 25C51 30 44 32 34 32C22 32 14 30 14 24ZM15 21L6 13M18 18L13 7M22 32l-4 8M28 32l-2 9M34 32l1 9M49 29C55 36 50 43 40 43M27 16v16M37 16v16',
    solids: dot(19, 23, 2),
  },
  potworms: {
    lines: (
      [
        [6, 12],
        [26, 8],
        [46, 13],
        [14, 24],
        [36, 23],
        [4, 36],
        [25, 38],
        [46, 36],
      ] as const
    )
      .map(thread)
      .join(''),
    solids: '',
  },
  ants: { lines: `${ANT_LEGS}M50 21L57 12M50 27L57 36`, solids: dot(16, 24, 9, 6) + dot(31, 24, 6, 4) + dot(45, 24, 6, 5) },
  slugs: {
    lines: 'M3 41C12 39 16 25 32 25C42 25 44 20 46 15C50 11 58 14 57 23C56 33 52 41 46 41ZM49 13L46 5M54 14L58 6M24 27C30 33 40 33 45 24',
    solids: dot(46, 4, 2) + dot(58, 5, 2),
  },
  centipedes: {
    lines: `M10 20H50a4 4 0 0 1 0 8H10a4 4 0 0 1 0-8ZM17 20v8M23 20v8M29 20v8M35 20v8M41 20v8${CENTIPEDE_LEGS}M53 21L62 14M53 27L62 34`,
    solids: 'M47 20h3a4 4 0 0 1 0 8h-3Z',
  },
  flatworms: {
    lines:
      'M9 8C3 14 5 25 13 29C18 25 24 27 30 32C38 39 50 36 61 42C54 29 44 29 37 23C30 17 29 12 22 11C17 4 12 4 9 8ZM14 17C24 17 30 25 38 30C44 33 48 33 52 35',
    solids: '',
  },
  rodents: {
    lines:
      'M4 36C6 28 12 24 18 24C22 16 34 14 42 20C50 26 50 38 44 40H10C6 40 4 38 4 36ZM46 38C56 42 62 34 58 26C56 20 60 14 62 12M4 36l5 1',
    solids: `${dot(12, 31, 2)}M18 24a5 5 0 1 1 8-5Z`,
  },
  other: { lines: 'M23 15C23 5 41 5 41 15C41 23 32 22 32 31', solids: dot(32, 40, 3) },
};
