/** Loosening, watering, bedding and the rest: what keeps a bin well between feedings. */
import { type Act, act, grams, inTrouble, isTrouble, type Scene, type Visit } from './scene.ts';

/** Below this a bed is watered, above that it gets dry bedding or is drained. */
const THIRSTY_FRAC = 0.73;
const SOGGY_FRAC = 0.79;
const DRIPPING_FRAC = 0.82;
const WATER_KG_M2 = 4;
const WATER_KG_M2_PER_FRAC = 60;
const LEAST_BEDDING_FRAC = 0.2;
const BEDDING_KG_M2 = 1.5;
const LOOSENED_EVERY_DAYS = 12;
const INOCULATED_EVERY_DAYS = 43;
const INOCULANT_KG = 1;
/** More than this in hand, as when a bed has grown cold over its last meal, is taken out [days]. */
const TOO_MUCH_FOOD_DAYS = 12;
const TAKEN_OUT_SHARE = 0.7;

const NOTES = [
  'Lid did not close well, put a stone on it.',
  'Lots of young worms in the middle.',
  'Moved the card to the windy side.',
  'Found two teaspoons. Please check the caddies.',
  'Smells like a wood after rain.',
  'New gloves are in the box.',
  'The children counted nine cocoons.',
];

/** Care given on one visit, by how the bin lies. */
export function caring(scene: Scene, visit: Visit): Act[] {
  const { chance } = scene;
  const given: Readonly<Record<string, unknown>>[] = [
    ...loosening(scene, visit),
    ...watering(scene, visit),
    ...bedding(scene, visit),
    ...inoculating(visit),
    ...takingOut(scene, visit),
  ];
  const cares = given.map((body) => act(scene, visit.on, '/api/cares', body));
  return chance.happens(0.03) ? [...cares, act(scene, visit.on, '/api/notes', { note: chance.pick(NOTES) })] : cares;
}

function loosening(scene: Scene, { view, daysAgo }: Visit): Readonly<Record<string, unknown>>[] {
  if (isTrouble(scene.story, daysAgo, 'airless') || isTrouble(scene.story, daysAgo, 'overfed')) return [];
  const since = view.day - (view.lastLoosenedDay ?? 0);
  return since >= LOOSENED_EVERY_DAYS ? [{ action: 'loosened' }] : [];
}

/** Litres by how far it is from damp and how large it is; nobody waters the bin that dries out. */
function watering(scene: Scene, { view, daysAgo }: Visit): Readonly<Record<string, unknown>>[] {
  const short = THIRSTY_FRAC - view.moistureFracWb.p50;
  if (short <= 0 || isTrouble(scene.story, daysAgo, 'dry')) return [];
  const massKg = grams(Math.round(scene.story.areaM2 * (WATER_KG_M2 + short * WATER_KG_M2_PER_FRAC) * 10) / 10);
  return [{ action: 'watered', massKg: Math.max(0.2, massKg) }];
}

function bedding(scene: Scene, { view, daysAgo }: Visit): Readonly<Record<string, unknown>>[] {
  if (inTrouble(scene.story, daysAgo) && !isTrouble(scene.story, daysAgo, 'harvest-due')) return [];
  const soggy = view.moistureFracWb.p50 > SOGGY_FRAC;
  const drained = view.moistureFracWb.p50 > DRIPPING_FRAC ? [{ action: 'drained' }] : [];
  if (!soggy && view.beddingFracOfSolids.p50 > LEAST_BEDDING_FRAC) return drained;
  const massKg = grams(Math.max(0.1, scene.story.areaM2 * BEDDING_KG_M2));
  return [...drained, { action: 'bedding', massKg, materialId: scene.site.bedding }];
}

function inoculating({ view }: Visit): Readonly<Record<string, unknown>>[] {
  const since = view.day - (view.lastInoculatedDay ?? 0);
  return since >= INOCULATED_EVERY_DAYS ? [{ action: 'inoculated', massKg: INOCULANT_KG }] : [];
}

function takingOut({ story }: Scene, { view, daysAgo }: Visit): Readonly<Record<string, unknown>>[] {
  const tooMuch = view.foodInHandDays.p50 > TOO_MUCH_FOOD_DAYS;
  return tooMuch && !inTrouble(story, daysAgo) ? [{ action: 'taken-out', share: TAKEN_OUT_SHARE }] : [];
}

/** What happens once: worms given to a neighbour, or brought from one. */
export function onceIn(scene: Scene, visit: Visit): Act[] {
  const { story } = scene;
  return (story.once ?? [])
    .filter((happening) => happening.daysAgo === visit.daysAgo)
    .map(({ url, body }) => act(scene, visit.on, url, body));
}
