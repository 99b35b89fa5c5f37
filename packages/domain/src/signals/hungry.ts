import { parameter } from '../bin/parameter.ts';
import { nothingSeen, noZone, reason, type SignalDefinition } from './definition.ts';
import { KIND_MARKS } from './kind-marks.ts';

const thresholds = {
  foodInHandDays: parameter(1, 'd of appetite', 'estimate', 'science-table-1'),
  beddingNearlyEaten: parameter(1.5, 'times the least bedding of the kind', 'estimate', 'science-table-10'),
} as const;
const deadBand = parameter(0.5, 'd of appetite', 'estimate', 'science-table-1');

/** Nothing is left to eat, and hardly any bedding either. */
export const hungry: SignalDefinition = {
  id: 'hungry',
  role: 'duty',
  priority: 9,
  owner: 'volunteer',
  respondWithinDays: 7,
  thresholds,
  deadBand,
  delayDays: 5,
  remedies: ['feed-now', 'add-bedding'],
  cautions: ['gloves'],
  condition: ({ reading, setup, resting }, holding) =>
    !resting &&
    reading.appetiteKgDbPerDay > 0 &&
    reading.foodInHandDays < thresholds.foodInHandDays.value + (holding ? deadBand.value : 0) &&
    reading.beddingFracOfSolids < KIND_MARKS[setup.kind].beddingMinFrac.value * thresholds.beddingNearlyEaten.value,
  seen: nothingSeen,
  zone: noZone,
  reasons: ({ reading, setup, log }) => [
    reason(
      'food-short',
      { days: reading.foodInHandDays },
      log.fed.slice(0, 1).flatMap((fed) => fed.entryIds),
    ),
    reason('bedding-eaten', { beddingFrac: reading.beddingFracOfSolids, minFrac: KIND_MARKS[setup.kind].beddingMinFrac.value }),
  ],
};
