import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';
import type { MadeUpMove } from './choices.ts';
import { FOOD_LETTERS, FOODS } from './story.ts';

/** What was done at one time, as a sentence. */
export function deedWords(move: MadeUpMove, f: Format): string {
  const w = words.madeUp;
  const food = w.foods[FOOD_LETTERS.find((letter) => FOODS[letter] === move.food.material) ?? 'v'];
  const fed = move.zones > 1 ? w.did.feedAll : w.did.feed;
  const parts: readonly (readonly [boolean, string])[] = [
    [move.takenOutFrac > 0, w.did.out(f.percent(move.takenOutFrac))],
    [move.loosen, w.did.loosen],
    [move.waterKg > 0, w.did.water(f.water(move.waterKg))],
    [move.foodKg > 0, fed(f.mass(move.foodKg), food)],
    [move.beddingKg > 0, w.did.card(f.mass(move.beddingKg))],
    [move.airC !== null, w.did.to(f.temp(move.airC ?? 0))],
  ];
  return w.youDid(f.list(parts.filter(([did]) => did).map(([, said]) => said)));
}
