import { BAND_MARKS, SIGNALS } from '@middenry/domain';
import { expect, it } from 'vitest';
import { HEAP_KG_PER_M2 } from './choice.ts';
import { ACT, LIMITS, WATCH } from './shown-quantities.ts';

const mark = (signal: keyof typeof SIGNALS, name: string) => SIGNALS[signal].thresholds[name]?.value;

it('the lines of a fan are the marks that the signals judge by', () => {
  expect(LIMITS).toEqual({
    airlessFrac: [mark('airless', 'airlessFrac')],
    foodInHandDays: [mark('overfed', 'foodInHandDays')],
    wormsKg: [],
    moistureFracWb: [mark('dry', 'moistureFracWb'), mark('wet', 'moistureFracWb')],
    bedTempC: [mark('cold', 'bedTempC'), mark('hot', 'bedPeakTempC')],
  });
  expect([WATCH, ACT]).toEqual([BAND_MARKS.watchFrom.value, BAND_MARKS.actFrom.value]);
});

it('the slider for food ends at twice a big feeding', () => {
  expect(HEAP_KG_PER_M2).toBe(2 * (mark('airless', 'bigFeedingKgM2') ?? 0));
});
