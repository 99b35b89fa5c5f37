import { parameter } from '../bin/parameter.ts';
import { nothingSeen, noZone, reason, type SignalAt, type SignalDefinition } from './definition.ts';

const thresholds = { intervals: parameter(2, "times the bin's own interval", 'estimate', 'common-practice') } as const;

/** Days since somebody looked; a new bin counts from the day it was set up. */
export const daysUnseen = ({ log }: SignalAt): number => log.day - (log.lastCheckDay ?? 0);

/** Nobody has looked for so long that the model's word alone is not enough. */
export const unseen: SignalDefinition = {
  id: 'unseen',
  role: 'duty',
  priority: 8,
  owner: 'volunteer',
  respondWithinDays: 7,
  thresholds,
  deadBand: parameter(0, 'd', 'estimate', 'common-practice'),
  delayDays: 1,
  remedies: ['check'],
  cautions: ['gloves'],
  condition: (at) => daysUnseen(at) > thresholds.intervals.value * at.checkIntervalDays,
  seen: nothingSeen,
  zone: noZone,
  reasons: (at) => [reason('not-seen', { days: daysUnseen(at), intervalDays: at.checkIntervalDays })],
};
