/** What goes into a bin, as its people feed it. */
import type { BinView } from '@middenry/domain';
import { type Act, act, grams, isTrouble, type Scene, type Visit } from './scene.ts';

/** More food in hand than this is left to be eaten first [days]. */
const ENOUGH_FOOD_DAYS = 5;
const SHORT_FOOD_DAYS = 3;
const LEAST_KG = 0.1;
/** After feeding there is no more in hand than this. */
const MOST_FOOD_DAYS = 9;
/** Fast-rotting dry matter in a kilogram of mixed scraps, about. */
const LABILE_DB_PER_KG = 0.095;

/** What the worms can be given on top of what lies there [kg]. */
function roomKg({ foodInHandDays, appetiteKgDbPerDay }: BinView): number {
  return (Math.max(0, MOST_FOOD_DAYS - foodInHandDays.p50) * appetiteKgDbPerDay.p50) / LABILE_DB_PER_KG;
}

export function feeding(scene: Scene, visit: Visit): Act[] {
  const { story, chance, site } = scene;
  const { on, view } = visit;
  const hungryRatio = view.foodInHandDays.p50 < SHORT_FOOD_DAYS ? 1.4 : 1.1;
  const usualKg = Math.min((visit.weekKg * hungryRatio * story.feedEveryDays) / 7, roomKg(view));
  const held = view.foodInHandDays.p50 > ENOUGH_FOOD_DAYS;
  const fed = troubled(scene, visit, { massKg: held ? 0 : usualKg * chance.between(0.75, 1), zone: zoneInTurn(view) });
  if (fed.massKg < LEAST_KG) return [];
  const beddingKg = grams(fed.massKg * beddingPerFood(scene, visit) * fed.beddingRatio * chance.between(0.9, 1.1));
  const body = {
    zone: fed.zone,
    items: itemsOf(scene, fed.massKg),
    ...(beddingKg > 0 ? { beddingKg, beddingMaterialId: site.bedding } : {}),
  };
  return [act(scene, on, '/api/feedings', body)];
}

const THIRSTY_FRAC = 0.7;
const SOGGY_FRAC = 0.78;

/** More bedding where the bed is wet or its bedding nearly eaten, less where it is dry. */
function beddingPerFood({ story }: Scene, { view }: Visit): number {
  const moistureFracWb = view.moistureFracWb.p50;
  if (moistureFracWb > SOGGY_FRAC) return story.beddingPerFood * 2;
  return moistureFracWb < THIRSTY_FRAC ? story.beddingPerFood * 0.7 : story.beddingPerFood;
}

const zoneInTurn = (view: BinView): number =>
  [...view.zones].sort((a, b) => (a.lastFedDay ?? -1) - (b.lastFedDay ?? -1) || a.zone - b.zone)[0]!.zone;

/** What goes wrong at this bin, as people make it go wrong. */
function troubled({ story }: Scene, { daysAgo }: Visit, usual: { massKg: number; zone: number }): Fed {
  if (isTrouble(story, daysAgo, 'overfed')) return { massKg: story.weekKg * 4, zone: usual.zone, beddingRatio: 1 };
  // Everything into the near corner, soft and without bedding.
  if (isTrouble(story, daysAgo, 'airless')) return { massKg: story.weekKg * 5, zone: 1, beddingRatio: 0 };
  return { ...usual, beddingRatio: isTrouble(story, daysAgo, 'dry') ? 3 : 1 };
}

interface Fed {
  readonly massKg: number;
  readonly zone: number;
  readonly beddingRatio: number;
}

const LEAST_FILLED = 0.25;

/** One or two foods, by weight, by the site's container or by eye. */
function itemsOf({ chance, site, containerIds }: Scene, massKg: number): object[] {
  const kinds = chance.happens(0.35) ? 2 : 1;
  return Array.from({ length: kinds }, () => {
    const materialId = chance.pick(site.foods);
    const how = chance.pick(['weighed', 'weighed', 'container', 'container', 'guessed'] as const);
    const preparation = chance.pick(['chopped', 'chopped', 'whole', 'frozen'] as const);
    const partKg = Math.max(0.05, grams(massKg / kinds));
    const container = chance.pick(site.containers);
    // Nobody measures a handful by the bucket.
    if (how !== 'container' || partKg < container.fullKg * LEAST_FILLED)
      return { materialId, massKg: partKg, how: how === 'container' ? 'guessed' : how, preparation, typed: { value: partKg, unit: 'kg' } };
    const count = Math.round((partKg / container.fullKg) * 20) / 20;
    const typed = { value: count, unit: 'container' };
    const of = { containerId: containerIds.get(container.key), containerCount: count, typed };
    return { materialId, massKg: grams(count * container.fullKg), how, preparation, ...of };
  });
}
