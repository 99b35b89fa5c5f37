import type { DutyKind } from '@middenry/domain';
import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';
import type { Choice } from './choice.ts';

/** A choice as work for a shift: which duties it asks for, and what to write beside them. */
export function planOf(choice: Choice, food: string, f: Format): { readonly kinds: readonly DutyKind[]; readonly line: string } {
  const w = words.whatIf;
  const zones = `${choice.zones} ${w.zonesUnit(choice.zones)}`;
  const parts: readonly (readonly [boolean, DutyKind | null, string])[] = [
    [choice.takenOutFrac > 0, null, w.outLine(f.percent(choice.takenOutFrac))],
    [choice.loosen, 'loosen', w.loosenLine],
    [choice.waterKg > 0, 'water', w.waterLine(f.water(choice.waterKg))],
    [choice.foodKg > 0, 'feed', w.feedLine(f.mass(choice.foodKg), food.toLowerCase(), zones)],
    [choice.beddingKg > 0, 'bedding', w.cardLine(f.mass(choice.beddingKg))],
  ];
  const chosen = parts.filter(([isChosen]) => isChosen);
  return {
    kinds: chosen.flatMap(([, kind]) => (kind === null ? [] : [kind])),
    line: chosen.length === 0 ? '' : w.line(f.list(chosen.map(([, , text]) => text))),
  };
}
