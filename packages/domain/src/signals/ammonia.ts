import { parameter } from '../bin/parameter.ts';
import { noZone, reason, type SignalDefinition, stillStands } from './definition.ts';

const thresholds = {
  cnRatio: parameter(15, 'C:N of what rots', 'estimate', 'science-table-5'),
  bedTempC: parameter(15, 'C', 'estimate', 'science-table-5'),
  ph: parameter(8, 'pH', 'estimate', 'science-table-5'),
} as const;
const deadBand = parameter(1, 'C:N', 'estimate', 'science-table-5');

/** Rich food with too little carbon gives off ammonia. */
export const ammonia: SignalDefinition = {
  id: 'ammonia',
  role: 'alert',
  priority: 3,
  owner: 'volunteer',
  respondWithinDays: 1,
  thresholds,
  deadBand,
  delayDays: 1,
  remedies: ['take-out-uneaten', 'mix-in-bedding', 'loosen'],
  cautions: ['gloves', 'lime'],
  condition: ({ reading }, holding) =>
    reading.rottingCn < thresholds.cnRatio.value + (holding ? deadBand.value : 0) &&
    reading.bedTempC > thresholds.bedTempC.value &&
    reading.ph > thresholds.ph.value,
  seen: ({ log }) =>
    log.smell?.value === 'ammonia' && stillStands(log, log.smell.day, ['remove', 'bedding'])
      ? [reason('smelled', { smell: 'ammonia', day: log.smell.day }, log.smell.entryIds)]
      : [],
  zone: noZone,
  reasons: ({ reading }) => [reason('nitrogen-high', { cnRatio: reading.rottingCn })],
};
