import type { AccuracySource } from './accuracy-row.ts';
import { cornellCarbon } from './cornell-carbon.ts';
import { cornellCn } from './cornell-cn.ts';
import { cornellMicrobes } from './cornell-microbes.ts';
import { cornellMoisture } from './cornell-moisture.ts';
import { eawagBulkDensity } from './eawag-bulk-density.ts';
import { cornellChemistry, gardenVolume, ncextAlgebra } from './known-wrong.ts';
import { merseysideDensity } from './merseyside-density.ts';
import { osuSawdust, tchobanoglousBlend, vesilindWater } from './single-blends.ts';
import { threePartHandout } from './three-part-handout.ts';
import { transform2012 } from './transform-2012.ts';

/** Every source whose published figures we are measured against. */
export const ACCURACY_SOURCES: readonly AccuracySource[] = [
  cornellMoisture,
  cornellCn,
  cornellMicrobes,
  cornellCarbon,
  threePartHandout,
  eawagBulkDensity,
  merseysideDensity,
  transform2012,
  osuSawdust,
  vesilindWater,
  tchobanoglousBlend,
  ncextAlgebra,
  cornellChemistry,
  gardenVolume,
];
