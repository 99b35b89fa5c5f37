import { parameter } from '../bin/parameter.ts';
import { reason, type SignalDefinition, type SignalTold, stillStands } from './definition.ts';
import type { ZoneDay } from './member-day.ts';
import type { Reason } from './types.ts';

const thresholds = {
  airlessFrac: parameter(0.25, 'share of layer', 'estimate', 'science-table-6'),
  leastFoodKg: parameter(0.2, 'kg', 'estimate', 'science-table-6'),
  baseOxygenFrac: parameter(0.05, 'O2 in pore air', 'published', 'extension-oxygen'),
  packedPorosity: parameter(0.2, 'air of volume', 'published', 'technical-note-24'),
  bigFeedingKgM2: parameter(30, 'kg/m2 of zone: 5 cm at 600 kg/m3', 'derived', 'science-table-6'),
} as const;
const deadBand = parameter(0.05, 'share of layer', 'estimate', 'science-table-6');

const worst = ({ bin }: SignalTold): ZoneDay | undefined =>
  bin.zones.filter((zone) => zone.foodLeftKgWb >= thresholds.leastFoodKg.value).sort((a, b) => b.airlessFrac - a.airlessFrac)[0];

/** The zone whose food is short of air; undefined when it is the bed below. */
const atFault = (at: SignalTold): ZoneDay | undefined => {
  const zone = worst(at);
  return zone && zone.airlessFrac >= thresholds.airlessFrac.value - deadBand.value ? zone : undefined;
};

/** Food lies deeper than air can reach. */
export const airless: SignalDefinition = {
  id: 'airless',
  role: 'alert',
  priority: 1,
  owner: 'volunteer',
  respondWithinDays: 2,
  thresholds,
  deadBand,
  delayDays: 2,
  remedies: ['loosen', 'mix-in-bedding', 'take-out-uneaten', 'hold-next-feed', 'feed-half'],
  cautions: ['gloves', 'damp-not-dusty'],
  condition: ({ reading }, holding) => {
    const limit = thresholds.airlessFrac.value - (holding ? deadBand.value : 0);
    return reading.airlessFrac >= limit || reading.baseOxygenFrac < thresholds.baseOxygenFrac.value;
  },
  seen: ({ log }) =>
    log.smell?.value === 'rotten' && stillStands(log, log.smell.day, ['loosen', 'remove', 'bedding'])
      ? [reason('smelled', { smell: 'rotten', day: log.smell.day }, log.smell.entryIds)]
      : [],
  zone: (at) => atFault(at)?.zone ?? null,
  reasons: (at) => {
    const zone = atFault(at);
    return zone ? zoneReasons(at, zone) : bedReasons(at);
  },
};

function bedReasons({ reading, log }: SignalTold): readonly Reason[] {
  if (reading.baseOxygenFrac >= thresholds.baseOxygenFrac.value) return [];
  const bare = log.fed.find((fed) => fed.beddingKg === 0);
  return [
    reason('packed', { airFilledPorosity: reading.airFilledPorosity }),
    reason('too-wet', { moistureFracWb: reading.moistureFracWb }),
    ...(bare ? [reason('fed-without-bedding', { zone: bare.zone, day: bare.day }, bare.entryIds)] : []),
  ];
}

function zoneReasons(at: SignalTold, zone: ZoneDay): readonly Reason[] {
  const reasons = [reason('layer-deep', { zone: zone.zone, layerDepthM: zone.layerDepthM, airDepthM: zone.airDepthM })];
  const zoneAreaM2 = at.setup.areaM2 / at.setup.zones;
  const capKg = thresholds.bigFeedingKgM2.value * zoneAreaM2;
  const feedings = at.log.fed.filter((fed) => fed.zone === zone.zone);
  for (const fed of feedings.filter((each) => each.massKg > capKg).slice(0, 2)) {
    reasons.push(reason('fed-much', { zone: zone.zone, massKg: fed.massKg, capKg, day: fed.day }, fed.entryIds));
  }
  const bare = feedings.find((fed) => fed.beddingKg === 0);
  if (bare) reasons.push(reason('fed-without-bedding', { zone: zone.zone, day: bare.day }, bare.entryIds));
  if (zone.airFilledPorosity < thresholds.packedPorosity.value)
    reasons.push(reason('packed', { airFilledPorosity: zone.airFilledPorosity }));
  return reasons;
}
