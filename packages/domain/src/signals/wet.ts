import { parameter } from '../bin/parameter.ts';
import { noZone, reason, type SignalDefinition, stillStands } from './definition.ts';

const thresholds = {
  moistureFracWb: parameter(0.83, 'wet basis', 'estimate', 'science-table-4'),
  airFilledPorosity: parameter(0.2, 'air of volume', 'published', 'technical-note-24'),
} as const;
const deadBand = parameter(0.02, 'wet basis; air of volume alike', 'estimate', 'science-table-4');

/** The bed holds so much water, or is packed so tight, that little air is left in it. */
export const wet: SignalDefinition = {
  id: 'wet',
  role: 'alert',
  priority: 5,
  owner: 'volunteer',
  respondWithinDays: 4,
  thresholds,
  deadBand,
  delayDays: 2,
  remedies: ['mix-in-bedding', 'drain', 'loosen', 'hold-next-feed'],
  cautions: ['gloves', 'leachate'],
  condition: ({ reading }, holding) => {
    const ease = holding ? deadBand.value : 0;
    return (
      reading.moistureFracWb > thresholds.moistureFracWb.value - ease ||
      reading.airFilledPorosity < thresholds.airFilledPorosity.value + ease
    );
  },
  seen: ({ log }) =>
    log.squeeze?.value === 'trickle' && stillStands(log, log.squeeze.day, ['bedding', 'drain'])
      ? [reason('squeezed', { squeeze: 'trickle', day: log.squeeze.day }, log.squeeze.entryIds)]
      : [],
  zone: noZone,
  reasons: ({ reading }) => {
    const reasons = [];
    if (reading.moistureFracWb > thresholds.moistureFracWb.value - deadBand.value)
      reasons.push(reason('too-wet', { moistureFracWb: reading.moistureFracWb }));
    if (reading.airFilledPorosity < thresholds.airFilledPorosity.value + deadBand.value)
      reasons.push(reason('packed', { airFilledPorosity: reading.airFilledPorosity }));
    return reasons;
  },
};
