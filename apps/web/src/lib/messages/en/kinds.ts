// Data: kinds of bins, and how to look at one, which the log form does not say.
import type { BinKind, Look } from '@middenry/domain';

const looks = {
  leftover: (zone) => (zone === null ? 'Look how much food is left' : `Look how much food is left in zone ${zone}`),
  squeeze: () => 'Squeeze a handful and count the drops',
  smell: () => 'Smell a handful',
  worms: () => 'Dig in and see how many worms there are',
} as const satisfies Record<Look, (zone: number | null) => string>;

const kinds = {
  tote: 'box',
  'tray-stack': 'stack of trays',
  'flow-through': 'flow-through bin',
  fabric: 'hanging bag',
  bed: 'bed on the ground',
  pit: 'pit or trench',
  vessel: 'small vessel',
} as const satisfies Record<BinKind, string>;

export const kindWords = {
  looks: looks as Record<Look, (zone: number | null) => string>,
  kinds: kinds as Record<BinKind, string>,
};
