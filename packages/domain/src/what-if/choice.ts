import type { BinEvent, Climate, Portion } from '../bin/scenario.ts';
import { weatherOf } from '../bin/weather.ts';

/** How often the same is fed again within the days ahead. */
export const WHAT_IF_REPEATS = ['once', 'weekly', 'every-3-days'] as const;
export type WhatIfRepeat = (typeof WHAT_IF_REPEATS)[number];
const GAP_DAYS: Readonly<Record<WhatIfRepeat, number>> = { once: Number.POSITIVE_INFINITY, weekly: 7, 'every-3-days': 3 };

/** What somebody would do at a bin from tomorrow on; everything that is planned otherwise is left out. */
export interface WhatIfChoice {
  /** Given at each feeding; 0 feeds nothing. */
  readonly foodKg: number;
  /** What it is: a key of the catalogue, or its numbers. */
  readonly food: Pick<Portion, 'material' | 'composition'>;
  /** Over how many zones it is spread, longest unfed first. */
  readonly zones: number;
  /** Of torn card, with each feeding, or alone where nothing is fed. */
  readonly beddingKg: number;
  readonly repeat: WhatIfRepeat;
  /** Tomorrow, before anything goes in. */
  readonly loosen: boolean;
  /** Share of the food lying there that is taken out tomorrow. */
  readonly takenOutFrac: number;
  readonly waterKg: number;
  /** How much warmer than expected every day ahead is; below 0 colder. */
  readonly warmerC: number;
}

export const NOTHING_DONE: WhatIfChoice = {
  foodKg: 0,
  food: { material: 'food_scraps_veg' },
  zones: 1,
  beddingKg: 0,
  repeat: 'once',
  loosen: false,
  takenOutFrac: 0,
  waterKg: 0,
  warmerC: 0,
};

const CARD = 'cardboard_corrugated';

/**
 * What a choice does to a bin on the days ahead.
 *
 * @shape choice, zones[n], day -> events
 * @param turns Zones in the order in which they are fed
 * @returns Events of tomorrow and of the feedings after it, by day
 */
export function eventsOfChoice(choice: WhatIfChoice, turns: readonly number[], today: number, days: number): readonly BinEvent[] {
  const { foodKg, food, beddingKg, waterKg, loosen, takenOutFrac } = choice;
  const events: BinEvent[] = [];
  const first = today + 1;
  if (takenOutFrac > 0) events.push({ day: first, type: 'remove', foodFrac: takenOutFrac });
  if (loosen) events.push({ day: first, type: 'loosen' });
  if (waterKg > 0) events.push({ day: first, type: 'water', massKg: waterKg });
  if (foodKg === 0 && beddingKg > 0)
    events.push({ day: first, type: 'bedding', items: [{ material: CARD, massKg: beddingKg, how: 'weighed' }], mixedIn: true });
  if (foodKg === 0) return events;
  const zones = Math.max(1, Math.min(choice.zones, turns.length));
  let turn = 0;
  for (let day = first; day <= today + days; day += GAP_DAYS[choice.repeat])
    for (let i = 0; i < zones; i++)
      events.push({
        day,
        type: 'feeding',
        zone: turns[turn++ % turns.length]!,
        items: [{ ...food, massKg: foodKg / zones, how: 'weighed' }],
        beddingKg: beddingKg / zones,
        beddingMaterial: CARD,
      });
  return events;
}

/** The same air, so much warmer on each of the days ahead. */
export function warmerAhead(climate: Climate, today: number, days: number, warmerC: number): Climate {
  if (warmerC === 0 || climate.bedTempC !== undefined) return climate;
  const ahead = Array.from({ length: days }, (_, i) => today + 1 + i);
  const readings = ahead.map((day) => [day, weatherOf(climate, day).airTempC + warmerC] as const);
  return { ...climate, readings: [...(climate.readings ?? []), ...readings] };
}
