import { parameter } from '../bin/parameter.ts';
import { nothingSeen, noZone, reason, type SignalAt, type SignalDefinition } from './definition.ts';
import { castingsDepthM, KIND_MARKS } from './kind-marks.ts';

const deadBand = parameter(0.05, 'share of depth', 'estimate', 'science-table-10');

const sinceHarvestDays = ({ ageDays, log }: SignalAt): number => (log.lastHarvestDay === null ? ageDays : log.day - log.lastHarvestDay);

/** Castings are deep or old enough to take some. */
export const harvestDue: SignalDefinition = {
  id: 'harvest-due',
  role: 'duty',
  priority: 10,
  owner: 'site-lead',
  respondWithinDays: 21,
  thresholds: { deep: KIND_MARKS.tote.castingsDeepFrac, age: KIND_MARKS.tote.harvestAgeDays, worth: KIND_MARKS.tote.castingsWorthFrac },
  deadBand,
  delayDays: 1,
  remedies: ['harvest'],
  cautions: ['gloves', 'damp-not-dusty', 'lifting', 'castings-on-food'],
  condition: (at, holding) => {
    const marks = KIND_MARKS[at.setup.kind];
    const depthFrac = castingsDepthM(at.reading.castingsKgWb, at.setup.areaM2) / at.setup.depthM + (holding ? deadBand.value : 0);
    const old = sinceHarvestDays(at) >= marks.harvestAgeDays.value && depthFrac >= marks.castingsWorthFrac.value;
    return old || depthFrac >= marks.castingsDeepFrac.value;
  },
  seen: nothingSeen,
  zone: noZone,
  reasons: (at) => {
    const marks = KIND_MARKS[at.setup.kind];
    const levelM = castingsDepthM(at.reading.castingsKgWb, at.setup.areaM2);
    const deep = reason('castings-deep', {
      castingsKg: at.reading.castingsKgWb,
      levelM,
      markM: at.setup.depthM * Math.min(marks.castingsDeepFrac.value, marks.castingsWorthFrac.value),
    });
    const age = sinceHarvestDays(at);
    return age >= marks.harvestAgeDays.value ? [deep, reason('bin-old', { ageDays: at.ageDays, sinceHarvestDays: age })] : [deep];
  },
};
