import { parameter } from '../bin/parameter.ts';
import { lastBeyond, noZone, reason, type SignalDefinition, stillStands } from './definition.ts';

const thresholds = { bedPeakTempC: parameter(29, 'C, peak of the day in the bed', 'estimate', 'science-table-3') } as const;
const deadBand = parameter(1, 'C', 'estimate', 'science-table-3');

/** The bed gets hotter than the worms can bear for long. */
export const hot: SignalDefinition = {
  id: 'hot',
  role: 'alert',
  priority: 3,
  owner: 'volunteer',
  respondWithinDays: 1,
  thresholds,
  deadBand,
  delayDays: 1,
  remedies: ['shade', 'hold-next-feed', 'take-out-uneaten', 'add-water'],
  cautions: ['lifting', 'flooding'],
  condition: ({ reading }, holding) => reading.bedPeakTempC >= thresholds.bedPeakTempC.value - (holding ? deadBand.value : 0),
  seen: ({ log }) => {
    const mark = thresholds.bedPeakTempC.value;
    const read = lastBeyond(
      log.tempsC,
      (tempC) => tempC >= mark,
      (tempC) => tempC < mark - deadBand.value,
    );
    return read && stillStands(log, read.day, ['move', 'water', 'remove'])
      ? [reason('bed-hot', { tempC: read.value, day: read.day }, read.entryIds)]
      : [];
  },
  zone: noZone,
  reasons: ({ reading }) => [reason('bed-hot', { tempC: reading.bedPeakTempC })],
};
