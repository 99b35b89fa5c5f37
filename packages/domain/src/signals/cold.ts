import { parameter } from '../bin/parameter.ts';
import { lastBeyond, noZone, reason, type SignalDefinition, stillStands } from './definition.ts';

const thresholds = { bedTempC: parameter(5, 'C, mean of the day in the bed', 'estimate', 'science-table-3') } as const;
const deadBand = parameter(1, 'C', 'estimate', 'science-table-3');

/** The bed is so cold that the worms do not eat. */
export const cold: SignalDefinition = {
  id: 'cold',
  role: 'alert',
  priority: 7,
  owner: 'volunteer',
  respondWithinDays: 3,
  thresholds,
  deadBand,
  delayDays: 2,
  remedies: ['insulate', 'hold-next-feed'],
  cautions: ['heating', 'lifting'],
  condition: ({ reading }, holding) => reading.bedTempC < thresholds.bedTempC.value + (holding ? deadBand.value : 0),
  seen: ({ log }) => {
    const mark = thresholds.bedTempC.value;
    const read = lastBeyond(
      log.tempsC,
      (tempC) => tempC < mark,
      (tempC) => tempC > mark + deadBand.value,
    );
    return read && stillStands(log, read.day, ['move', 'cover'])
      ? [reason('bed-cold', { tempC: read.value, day: read.day }, read.entryIds)]
      : [];
  },
  zone: noZone,
  reasons: ({ reading }) => [reason('bed-cold', { tempC: reading.bedTempC })],
};
