/** What people see at a bin, and what they take out when it is ripe. */
import type { BinView } from '@middenry/domain';
import { type Act, act, grams, inTrouble, type Scene, type Visit } from './scene.ts';

export function check(scene: Scene, { on, daysAgo, view }: Visit): Act {
  const { chance } = scene;
  const usual = {
    squeeze: squeezed(view.moistureFracWb.p50 + chance.between(-SQUEEZE_MISREAD_FRAC, SQUEEZE_MISREAD_FRAC)),
    smell: 'earthy',
    worms: chance.pick(['some', 'many', 'many'] as const),
    leftover: lastFed(view),
    bedTempC: Math.round(view.bedTempC.p50 + chance.between(-1, 1)),
    visitors: chance.happens(0.3) ? [chance.pick(['springtails', 'mites', 'potworms', 'fruit-flies'] as const)] : [],
  };
  return act(scene, on, '/api/checks', inTrouble(scene.story, daysAgo) ? { ...usual, ...seenInTrouble(scene) } : usual);
}

/** The word for what a handful feels like, read as well as hands do. */
const SQUEEZE_MISREAD_FRAC = 0.02;
const squeezed = (moistureFracWb: number) => (moistureFracWb < 0.7 ? 'damp' : moistureFracWb < 0.8 ? 'one-two-drops' : 'few-drops');

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

/** Castings as deep as this share of the bin are worth taking; most of them are, and then not again for a while. */
const HARVEST_DEPTH_FRAC = 0.11;
const HARVESTED_EVERY_DAYS = 28;
const CASTINGS_KG_M3 = 650;

export function harvest(scene: Scene, { on, view, daysAgo }: Visit): Act[] {
  const { story, chance } = scene;
  const castingsKg = view.castingsKgWb.p50;
  const worthKg = HARVEST_DEPTH_FRAC * story.depthM * story.areaM2 * CASTINGS_KG_M3;
  const since = view.day - (view.lastHarvestDay ?? 0);
  if (castingsKg < worthKg || since < HARVESTED_EVERY_DAYS || inTrouble(scene.story, daysAgo)) return [];
  const massKg = grams(castingsKg * chance.between(0.5, 0.65));
  const destination = chance.pick(['beds', 'plots', 'beds', 'given-away', 'class', 'stock'] as const);
  return [act(scene, on, '/api/harvests', { massKg, how: 'weighed', typed: { value: massKg, unit: 'kg' }, destination })];
}

/** People lift the card where they fed last; what lies longer is under new card and nobody digs for it. */
function lastFed(view: BinView): { zone: number; left: string }[] {
  const [last] = [...view.zones].sort((a, b) => (b.lastFedDay ?? -1) - (a.lastFedDay ?? -1));
  const fedDaysAgo = view.day - (last?.lastFedDay ?? Number.NEGATIVE_INFINITY);
  return last && fedDaysAgo <= LIFTED_WITHIN_DAYS ? [{ zone: last.zone, left: leftOf(last.leftFrac.p50) }] : [];
}

const LIFTED_WITHIN_DAYS = 8;
const leftOf = (leftFrac: number) => (leftFrac < 0.05 ? 'none' : leftFrac < 0.35 ? 'little' : leftFrac < 0.65 ? 'half' : 'most');
