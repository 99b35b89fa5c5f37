import type { Study } from './comparison.ts';
import { endPoints } from './end-points.ts';
import { w01, w03 } from './growth-density.ts';
import { w04b, w11, w18, w21 } from './growth-feeds.ts';
import { w07, w17 } from './growth-moisture.ts';
import { w04, w06, w20, w23 } from './growth-temperature.ts';
import { p02, p03, p06, p08, w16 } from './life-tables.ts';
import { w12 } from './one-batch.ts';

/** Every published experiment that is run again. */
export const STUDIES: readonly Study[] = [
  w01,
  w03,
  w04,
  w04b,
  w06,
  w07,
  w11,
  w12,
  w17,
  w18,
  w20,
  w21,
  w23,
  w16,
  p02,
  p03,
  p06,
  p08,
  endPoints,
];
