import { parameter } from '../bin/parameter.ts';
import { nothingSeen, noZone, reason, type SignalDefinition } from './definition.ts';
import { KIND_MARKS } from './kind-marks.ts';

const deadBand = parameter(0.02, 'share of solids', 'estimate', 'science-table-10');

/** Hardly any bedding is left among the castings. */
export const beddingLow: SignalDefinition = {
  id: 'bedding-low',
  role: 'duty',
  priority: 11,
  owner: 'volunteer',
  respondWithinDays: 14,
  thresholds: { beddingFracOfSolids: KIND_MARKS.tote.beddingMinFrac },
  deadBand,
  delayDays: 2,
  remedies: ['add-bedding', 'mix-in-bedding'],
  cautions: ['damp-not-dusty'],
  condition: ({ reading, setup }, holding) =>
    reading.beddingFracOfSolids <
    KIND_MARKS[setup.kind].beddingMinFrac.value + (holding && KIND_MARKS[setup.kind].beddingMinFrac.value > 0 ? deadBand.value : 0),
  seen: nothingSeen,
  zone: noZone,
  reasons: ({ reading, setup }) => [
    reason('bedding-eaten', { beddingFrac: reading.beddingFracOfSolids, minFrac: KIND_MARKS[setup.kind].beddingMinFrac.value }),
  ],
};
