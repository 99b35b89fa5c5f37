import { parameter } from '../bin/parameter.ts';
import { lastBeyond, noZone, reason, type SignalDefinition, stillStands } from './definition.ts';

const thresholds = { ph: parameter(5.5, 'pH', 'estimate', 'science-table-5') } as const;
const deadBand = parameter(0.2, 'pH', 'estimate', 'science-table-5');

/** Acids build up faster than they are eaten. */
export const sour: SignalDefinition = {
  id: 'sour',
  role: 'alert',
  priority: 4,
  owner: 'volunteer',
  respondWithinDays: 3,
  thresholds,
  deadBand,
  delayDays: 2,
  remedies: ['ground-eggshell', 'take-out-uneaten', 'mix-in-bedding', 'loosen'],
  cautions: ['gloves', 'lime'],
  condition: ({ reading }, holding) => reading.ph < thresholds.ph.value + (holding ? deadBand.value : 0),
  seen: ({ log }) => {
    if (log.smell?.value === 'sour' && stillStands(log, log.smell.day, ['remove', 'bedding', 'loosen'])) {
      return [reason('smelled', { smell: 'sour', day: log.smell.day }, log.smell.entryIds)];
    }
    const mark = thresholds.ph.value;
    const read = lastBeyond(
      log.phs,
      (ph) => ph < mark,
      (ph) => ph > mark + deadBand.value,
    );
    return read && stillStands(log, read.day, ['remove', 'bedding'])
      ? [reason('ph-low', { ph: read.value, day: read.day }, read.entryIds)]
      : [];
  },
  zone: noZone,
  reasons: ({ reading }) => [reason('ph-low', { ph: reading.ph })],
};
