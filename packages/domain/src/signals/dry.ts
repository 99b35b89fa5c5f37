import { parameter } from '../bin/parameter.ts';
import { noZone, reason, type SignalDefinition, stillStands } from './definition.ts';

const thresholds = { moistureFracWb: parameter(0.6, 'wet basis', 'estimate', 'science-table-4') } as const;
const deadBand = parameter(0.02, 'wet basis', 'estimate', 'science-table-4');

/** The bed is drier than worms can work in. */
export const dry: SignalDefinition = {
  id: 'dry',
  role: 'alert',
  priority: 6,
  owner: 'volunteer',
  respondWithinDays: 3,
  thresholds,
  deadBand,
  delayDays: 2,
  remedies: ['add-water', 'shade'],
  cautions: ['flooding', 'damp-not-dusty'],
  condition: ({ reading }, holding) => reading.moistureFracWb < thresholds.moistureFracWb.value + (holding ? deadBand.value : 0),
  seen: ({ log }) =>
    log.squeeze?.value === 'crumbles' && stillStands(log, log.squeeze.day, ['water'])
      ? [reason('squeezed', { squeeze: 'crumbles', day: log.squeeze.day }, log.squeeze.entryIds)]
      : [],
  zone: noZone,
  reasons: ({ reading }) => [reason('too-dry', { moistureFracWb: reading.moistureFracWb })],
};
