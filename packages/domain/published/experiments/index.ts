import type { Study } from './comparison.ts';
import { w01, w03, w12 } from './growth-density.ts';

/** Every published experiment that is run again. */
export const STUDIES: readonly Study[] = [w01, w03, w12];
