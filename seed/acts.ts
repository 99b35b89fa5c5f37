/** What the people of one bin did and saw, day by day: the story as requests, without the ids of the store. */
import type { BinEvent, BinView, HowMeasured, Preparation } from '@middenry/domain';
import { addDays, startOf } from '../apps/api/src/services/local-time.ts';
import type { Chance } from './chance.ts';
import { keeperOf } from './keeper.ts';
import type { BinStory } from './world/bins.ts';
import { type SiteStory, TIME_ZONE } from './world/sites.ts';

export interface Act {
  readonly at: Date;
  readonly url: string;
  readonly body: Readonly<Record<string, unknown>>;
  readonly event: BinEvent;
}

export interface Scene {
  readonly story: BinStory;
  readonly site: SiteStory;
  /** The day on which the demonstration stands. */
  readonly today: string;
  readonly chance: Chance;
  readonly containerIds: ReadonlyMap<string, string>;
}

/** Trouble begins so many days before today. */
const TROUBLE_DAYS: Readonly<Record<NonNullable<BinStory['trouble']>, number>> = {
  overfed: 16,
  airless: 9,
  dry: 60,
  hot: 5,
  unseen: 34,
  'harvest-due': 9999,
};
/** People are away for a fortnight now and then, never just now. */
const AWAY_FROM_DAY = 150;
const AWAY_DAYS = 13;
const SKIPPED_VISITS = 0.08;
const CLOCK_TIMES = ['08:40', '10:15', '12:20', '15:35', '17:50'];

export function actsOf(scene: Scene): Act[] {
  const { story, today, chance } = scene;
  const keeper = keeperOf(story, addDays(today, -story.startedDaysAgo));
  const acts: Act[] = [];
  let feedIn = 1;
  let checkIn = 3;
  for (let daysAgo = story.startedDaysAgo - 1; daysAgo >= 0; daysAgo--) {
    const visit: Visit = { on: addDays(today, -daysAgo), daysAgo, view: keeper.view(), weekKg: keeper.weekKg() };
    const done: Act[] = [];
    if (isKept(scene, daysAgo)) {
      if (--feedIn <= 0) {
        feedIn = story.feedEveryDays + chance.whole(-1, 1);
        if (!chance.happens(SKIPPED_VISITS)) done.push(...feeding(scene, visit));
      }
      if (--checkIn <= 0) {
        checkIn = story.checkEveryDays + chance.whole(-1, 1);
        done.push(check(scene, visit), ...harvest(scene, visit));
      }
    }
    acts.push(...done);
    keeper.pass(done.map((act) => act.event));
  }
  return acts;
}

const inTrouble = ({ story }: Scene, daysAgo: number): boolean => story.trouble !== undefined && daysAgo <= TROUBLE_DAYS[story.trouble];
/** Away for a fortnight once; and nobody goes to the unseen bin any more. */
const isKept = (scene: Scene, daysAgo: number): boolean =>
  !(daysAgo > AWAY_FROM_DAY && daysAgo <= AWAY_FROM_DAY + AWAY_DAYS) && (scene.story.trouble !== 'unseen' || !inTrouble(scene, daysAgo));

interface Visit {
  readonly on: string;
  readonly daysAgo: number;
  /** The bin as it lies. */
  readonly view: BinView;
  /** Food of a week by the advice [kg]. */
  readonly weekKg: number;
}

/** More food in hand than this is left to be eaten first [days]. */
const ENOUGH_FOOD_DAYS = 8;
const SHORT_FOOD_DAYS = 3;
const LEAST_KG = 0.1;

function feeding(scene: Scene, visit: Visit): Act[] {
  const { story, chance, site } = scene;
  const { on, view } = visit;
  const hungryRatio = view.foodInHandDays.p50 < SHORT_FOOD_DAYS ? 1.8 : 1.2;
  const usualKg = (visit.weekKg * hungryRatio * story.feedEveryDays) / 7;
  const held = view.foodInHandDays.p50 > ENOUGH_FOOD_DAYS;
  const fed = troubled(scene, visit, { massKg: held ? 0 : usualKg * chance.between(0.75, 1), zone: zoneInTurn(view) });
  if (fed.massKg < LEAST_KG) return [];
  const beddingKg = grams(fed.massKg * beddingPerFood(scene, visit) * fed.beddingRatio * chance.between(0.9, 1.1));
  const waterKg = wateringKg(scene, view);
  const body = {
    zone: fed.zone,
    items: itemsOf(scene, fed.massKg),
    ...(beddingKg > 0 ? { beddingKg, beddingMaterialId: site.bedding } : {}),
    ...(waterKg > 0 ? { waterKg } : {}),
  };
  return [act(scene, on, '/api/feedings', body)];
}

/** Litres for a thirsty bed, by how far it is from damp and how large it is; nobody waters the dry bin. */
function wateringKg({ story }: Scene, view: BinView): number {
  const short = THIRSTY_FRAC - view.moistureFracWb.p50;
  return short <= 0 || story.trouble === 'dry' ? 0 : grams(story.areaM2 * (WATER_KG_M2 + short * WATER_KG_M2_PER_FRAC));
}

const WATER_KG_M2 = 5;
const WATER_KG_M2_PER_FRAC = 80;
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
function troubled(scene: Scene, { daysAgo, weekKg }: Visit, usual: { massKg: number; zone: number }) {
  if (!inTrouble(scene, daysAgo)) return { ...usual, beddingRatio: 1 };
  if (scene.story.trouble === 'overfed') return { massKg: Math.max(weekKg, scene.story.weekKg) * 1.5, zone: usual.zone, beddingRatio: 1 };
  if (scene.story.trouble === 'airless') return { massKg: scene.story.weekKg * 2, zone: 1, beddingRatio: 0 };
  return { ...usual, beddingRatio: scene.story.trouble === 'dry' ? 3 : 1 };
}

/** One or two foods, by weight, by the site's container or by eye. */
function itemsOf({ chance, site, containerIds }: Scene, massKg: number): object[] {
  const kinds = chance.happens(0.35) ? 2 : 1;
  return Array.from({ length: kinds }, () => {
    const materialId = chance.pick(site.foods);
    const how = chance.pick(['weighed', 'weighed', 'container', 'container', 'guessed'] as const);
    const preparation = chance.pick(['chopped', 'chopped', 'whole', 'frozen'] as const);
    const partKg = Math.max(0.05, grams(massKg / kinds));
    if (how !== 'container') return { materialId, massKg: partKg, how, preparation, typed: { value: partKg, unit: 'kg' } };
    const container = chance.pick(site.containers);
    const count = Math.max(0.1, Math.round((partKg / container.fullKg) * 10) / 10);
    const typed = { value: count, unit: 'container' };
    const of = { containerId: containerIds.get(container.key), containerCount: count, typed };
    return { materialId, massKg: grams(count * container.fullKg), how, preparation, ...of };
  });
}

function check(scene: Scene, { on, daysAgo, view }: Visit): Act {
  const { chance, story } = scene;
  const zone = chance.whole(1, story.zones);
  const usual = {
    squeeze: chance.pick(['damp', 'one-two-drops', 'one-two-drops'] as const),
    smell: 'earthy',
    worms: chance.pick(['some', 'many', 'many'] as const),
    leftover: [{ zone, left: leftOf(view.zones[zone - 1]!.leftFrac.p50) }],
    bedTempC: Math.round(view.bedTempC.p50 + chance.between(-1, 1)),
    visitors: chance.happens(0.3) ? [chance.pick(['springtails', 'mites', 'potworms', 'fruit-flies'] as const)] : [],
  };
  return act(scene, on, '/api/checks', inTrouble(scene, daysAgo) ? { ...usual, ...seenInTrouble(scene) } : usual);
}

function seenInTrouble({ story, chance }: Scene): object {
  switch (story.trouble) {
    case 'hot':
      return { bedTempC: chance.whole(31, 32), worms: 'few' };
    case 'dry':
      return { squeeze: 'crumbles', worms: 'few' };
    case 'overfed':
      return { leftover: [{ zone: 1, left: 'most' }] };
    default:
      return {};
  }
}

/** Castings as deep as this share of the bin are taken, most of them. */
const HARVEST_DEPTH_FRAC = 0.25;
const CASTINGS_KG_M3 = 650;

function harvest(scene: Scene, { on, view, daysAgo }: Visit): Act[] {
  const { story, chance } = scene;
  const castingsKg = view.castingsKgWb.p50;
  const worthKg = HARVEST_DEPTH_FRAC * story.depthM * story.areaM2 * CASTINGS_KG_M3;
  if (castingsKg < worthKg || inTrouble(scene, daysAgo)) return [];
  const massKg = grams(castingsKg * chance.between(0.6, 0.75));
  const destination = chance.pick(['beds', 'plots', 'beds', 'given-away', 'class', 'stock'] as const);
  return [act(scene, on, '/api/harvests', { massKg, how: 'weighed', typed: { value: massKg, unit: 'kg' }, destination })];
}

const leftOf = (leftFrac: number) => (leftFrac < 0.05 ? 'none' : leftFrac < 0.35 ? 'little' : leftFrac < 0.65 ? 'half' : 'most');

function act({ chance }: Scene, on: string, url: string, body: Act['body']): Act {
  const { startsAt } = startOf({ localDate: on, localTime: chance.pick(CLOCK_TIMES), timeZone: TIME_ZONE });
  const at = new Date(startsAt.getTime() + chance.whole(0, 1500) * 1000);
  return { at, url, body: { id: chance.id(at), happenedAt: at.toISOString(), ...body }, event: eventOf(url, body) };
}

const grams = (massKg: number): number => Math.round(massKg * 1000) / 1000;

/** The same act as the model is told of it. */
function eventOf(url: string, body: Act['body']): BinEvent {
  switch (url) {
    case '/api/feedings': {
      const { zone, items, beddingKg, beddingMaterialId, waterKg } = body as unknown as FeedingBody;
      const portions = items.map(({ materialId, massKg, how, preparation }) => ({ material: materialId, massKg, how, preparation }));
      return { day: 0, type: 'feeding', zone, items: portions, beddingKg, beddingMaterial: beddingMaterialId, waterKg };
    }
    case '/api/harvests':
      return { day: 0, type: 'harvest', massKg: Number(body.massKg) };
    default:
      return { day: 0, type: 'check' };
  }
}

interface FeedingBody {
  readonly zone: number;
  readonly items: readonly {
    readonly materialId: string;
    readonly massKg: number;
    readonly how: HowMeasured;
    readonly preparation: Preparation;
  }[];
  readonly beddingKg?: number;
  readonly beddingMaterialId?: string;
  readonly waterKg?: number;
}
