import { parameter } from '../bin/parameter.ts';
import { cardinalRatio, microbeRatioQ10 } from '../bin/temperature.ts';
import { WORM_PARAMETERS } from '../bin/worms.ts';
import { reason, type SignalDefinition, type SignalTold } from './definition.ts';
import type { Reading, ZoneDay } from './member-day.ts';

const thresholds = {
  foodInHandDays: parameter(14, 'd of appetite', 'estimate', 'science-table-1'),
  coolC: parameter(10, 'C', 'estimate', 'science-table-3'),
  leftFrac: parameter(0.5, 'share of a feeding', 'estimate', 'science-table-1'),
  leftAfterDays: parameter(10, 'd', 'estimate', 'science-table-1'),
  leftMattersDays: parameter(7, 'd of appetite', 'estimate', 'science-table-1'),
  leastFoodKg: parameter(0.2, 'kg', 'estimate', 'science-table-1'),
  seenLeftAfterDays: parameter(7, 'd', 'estimate', 'science-table-1'),
} as const;
const deadBand = parameter(2, 'd of appetite', 'estimate', 'science-table-1');

/**
 * Food in hand as the worms would eat it in a moist, airy bed of at least 10 C: where cold or drought stops them,
 * that is the trouble to name, and food that does not rot either is no hurry.
 */
export function goodBedDays({ labileFoodKgDb, wormsKg, bedTempC, foodInHandDays }: Reading): number {
  const { ingestionKgPerKgDay, feedMinC, feedOptimumC, feedMaxC } = WORM_PARAMETERS;
  const ratio = cardinalRatio(Math.max(bedTempC, thresholds.coolC.value), feedMinC.value, feedOptimumC.value, feedMaxC.value);
  const appetiteKgDb = wormsKg * ingestionKgPerKgDay.value * ratio;
  return appetiteKgDb > 0 ? Math.min(foodInHandDays, labileFoodKgDb / appetiteKgDb) : foodInHandDays;
}

/** Half a feeding after ten days at 20 C; in a cool bed all rotting is slower and more of it may be left. */
const leftLimit = (bedTempC: number): number => thresholds.leftFrac.value ** Math.min(1, microbeRatioQ10(bedTempC));

const leftLong = ({ bin }: SignalTold): ZoneDay | undefined =>
  bin.zones
    .filter(
      (zone) =>
        zone.watchedFedDay !== null &&
        bin.day - zone.watchedFedDay >= thresholds.leftAfterDays.value &&
        zone.watchedLabileFrac > leftLimit(bin.bedTempC) &&
        zone.foodLeftKgWb >= thresholds.leastFoodKg.value,
    )
    .sort((a, b) => b.foodLeftKgWb - a.foodLeftKgWb)[0];

/** More food lies there than the worms can eat in two weeks. */
export const overfed: SignalDefinition = {
  id: 'overfed',
  role: 'alert',
  priority: 2,
  owner: 'volunteer',
  respondWithinDays: 3,
  thresholds,
  deadBand,
  delayDays: 1,
  remedies: ['hold-next-feed', 'take-out-uneaten', 'feed-half', 'mix-in-bedding'],
  cautions: ['gloves', 'lifting'],
  condition: ({ reading }, holding) => {
    const days = goodBedDays(reading);
    const slow = reading.oldLabileFrac > leftLimit(reading.bedTempC) && days > thresholds.leftMattersDays.value;
    return slow || days > thresholds.foodInHandDays.value - (holding ? deadBand.value : 0);
  },
  seen: ({ log }) => {
    for (const [zone, seen] of log.leftover) {
      const fed = log.fed.find((each) => each.zone === zone && each.day <= seen.day);
      const days = fed ? seen.day - fed.day : 0;
      const stands = log.day - seen.day <= thresholds.seenLeftAfterDays.value && (log.lastCareDay.get('remove') ?? -1) < seen.day;
      if ((seen.value === 'most' || seen.value === 'all') && fed && days >= thresholds.leftAfterDays.value && stands) {
        return [reason('feeding-left', { zone, leftFrac: seen.value === 'all' ? 1 : 0.75, days }, [...seen.entryIds, ...fed.entryIds])];
      }
    }
    return [];
  },
  zone: (at) => mostInOne(at)?.zone ?? null,
  reasons: (at) => {
    const zone = leftLong(at);
    const recent = at.log.fed.filter((fed) => at.log.day - fed.day <= thresholds.foodInHandDays.value);
    const entryIds = recent.flatMap((fed) => fed.entryIds);
    const inHand = reason('food-in-hand', { days: goodBedDays(at.reading), limitDays: thresholds.foodInHandDays.value }, entryIds);
    if (!zone || zone.watchedFedDay === null) return [inHand];
    const ofZone = at.log.fed.filter((fed) => fed.zone === zone.zone).flatMap((fed) => fed.entryIds);
    return [
      reason('feeding-left', { zone: zone.zone, leftFrac: zone.watchedLabileFrac, days: at.bin.day - zone.watchedFedDay }, ofZone),
      inHand,
    ];
  },
};

/** The zone that holds more than half of all food; where it lies all over, the whole bin is meant. */
function mostInOne({ bin }: SignalTold): ZoneDay | undefined {
  const allKg = bin.zones.reduce((sum, zone) => sum + zone.foodLeftKgWb, 0);
  return bin.zones.find((zone) => zone.foodLeftKgWb > allKg / 2);
}
