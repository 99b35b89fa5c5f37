import {
  MADE_UP_BEDS,
  MADE_UP_DAYS,
  MADE_UP_SIZES,
  MADE_UP_WORMS,
  type MadeUpBed,
  type MadeUpMove,
  type MadeUpSize,
  type MadeUpWorms,
} from './choices.ts';

/** A made-up bin, what is done to it, and up to which day it has been played. */
export interface Story {
  readonly size: MadeUpSize;
  readonly bed: MadeUpBed;
  readonly worms: MadeUpWorms;
  readonly airC: number;
  /** In order of day. */
  readonly moves: readonly MadeUpMove[];
  readonly day: number;
}

/** Foods to choose among, by the letter that stands for each in an address. */
export const FOODS = {
  v: 'food_scraps_veg',
  m: 'watermelon',
  g: 'grass_clippings',
  b: 'bread_white',
  o: 'orange_peel',
  k: 'coffee_grounds',
} as const satisfies Readonly<Record<string, string>>;
export type FoodLetter = keyof typeof FOODS;
export const FOOD_LETTERS = Object.keys(FOODS) as FoodLetter[];

/** A handful, a bowl, a bucket, a heap [kg]. */
export const FEED_KG = [0.2, 1, 4, 12] as const;
export const CARD_KG = [0.2, 1, 3] as const;
export const WATER_KG = [1, 3, 10] as const;
export const AIR_C = [-5, 5, 12, 18, 25, 32, 38] as const;
export const STEPS_DAYS = [1, 7, 14] as const;
/** More than any bin has zones: all of them. */
const ALL_ZONES = 12;
const MOST_KG = 20;

export const BEGINNING: Story = { size: 'middle', bed: 'card', worms: 'some', airC: 18, moves: [], day: 0 };
const NOTHING: Omit<MadeUpMove, 'day'> = {
  foodKg: 0,
  food: { material: FOODS.v },
  zones: 1,
  beddingKg: 0,
  waterKg: 0,
  loosen: false,
  takenOutFrac: 0,
  airC: null,
};

type Deeds = Partial<Omit<MadeUpMove, 'day'>>;
const letterOf = (move: Pick<MadeUpMove, 'food'>): FoodLetter => FOOD_LETTERS.find((letter) => FOODS[letter] === move.food.material) ?? 'v';
const within = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, Number.isFinite(value) ? value : 0));
const SPELLED = /^(\d{1,2})([fscwlot])(-?\d*\.?\d+)?([a-z])?$/;

/** One deed as it stands in an address: `7f4g` is 4 kg of grass in one spot on the evening of day 7. */
function deedOf(letter: string, amount: number, food: string | undefined): Deeds {
  const kg = within(amount, 0, MOST_KG);
  switch (letter) {
    case 'f':
    case 's':
      return { foodKg: kg, food: { material: FOODS[(food ?? 'v') as FoodLetter] ?? FOODS.v }, zones: letter === 's' ? ALL_ZONES : 1 };
    case 'c':
      return { beddingKg: kg };
    case 'w':
      return { waterKg: kg };
    case 'l':
      return { loosen: true };
    case 'o':
      return { takenOutFrac: within(amount, 0, 100) / 100 };
    default:
      return { airC: within(amount, AIR_C[0], AIR_C[AIR_C.length - 1] ?? 0) };
  }
}

function readMoves(said: string): readonly MadeUpMove[] {
  const byDay = new Map<number, MadeUpMove>();
  for (const spelled of said.split('_').slice(0, 4 * MADE_UP_DAYS)) {
    const [, on, letter, amount, food] = SPELLED.exec(spelled) ?? [];
    if (on === undefined || letter === undefined) continue;
    const day = within(Number(on), 0, MADE_UP_DAYS - 1);
    byDay.set(day, { ...(byDay.get(day) ?? { day, ...NOTHING }), ...deedOf(letter, Number(amount), food) });
  }
  return [...byDay.values()].sort((a, b) => a.day - b.day);
}

function spell(move: MadeUpMove): readonly string[] {
  const { day } = move;
  const food = letterOf(move);
  return [
    ...(move.foodKg > 0 ? [`${day}${move.zones > 1 ? 's' : 'f'}${move.foodKg}${food === 'v' ? '' : food}`] : []),
    ...(move.beddingKg > 0 ? [`${day}c${move.beddingKg}`] : []),
    ...(move.waterKg > 0 ? [`${day}w${move.waterKg}`] : []),
    ...(move.loosen ? [`${day}l`] : []),
    ...(move.takenOutFrac > 0 ? [`${day}o${Math.round(move.takenOutFrac * 100)}`] : []),
    ...(move.airC === null ? [] : [`${day}t${move.airC}`]),
  ];
}

const oneOf = <T extends string>(among: readonly T[], said: string | null, otherwise: T): T =>
  among.find((one) => one === said) ?? otherwise;

/** Reads an address; whatever makes no sense is as if it had not been said. */
export function readStory(said: URLSearchParams): Story {
  const air = said.get('air');
  return {
    size: oneOf(MADE_UP_SIZES, said.get('size'), BEGINNING.size),
    bed: oneOf(MADE_UP_BEDS, said.get('bed'), BEGINNING.bed),
    worms: oneOf(MADE_UP_WORMS, said.get('worms'), BEGINNING.worms),
    airC: air === null || air === '' ? BEGINNING.airC : (deedOf('t', Number(air), undefined).airC ?? BEGINNING.airC),
    moves: readMoves(said.get('story') ?? ''),
    day: Math.round(within(Number(said.get('day')), 0, MADE_UP_DAYS)),
  };
}

/** Only what differs from the beginning, so that a link stays short. */
export function queryOfStory(story: Story): string {
  const search = new URLSearchParams();
  for (const name of ['size', 'bed', 'worms'] as const) if (story[name] !== BEGINNING[name]) search.set(name, story[name]);
  if (story.airC !== BEGINNING.airC) search.set('air', String(story.airC));
  const moves = story.moves.flatMap(spell);
  if (moves.length > 0) search.set('story', moves.join('_'));
  if (story.day > 0) search.set('day', String(story.day));
  return search.toString();
}

/**
 * What the form asks: deeds at the story's day, then so many days let pass. What had been done after
 * that day is gone, since it is told anew from there.
 */
export function goOn(story: Story, form: URLSearchParams): Story {
  const number = (name: string) => Number(form.get(name) ?? '');
  const food = deedOf(form.get('spread') === 'all' ? 's' : 'f', number('feed'), form.get('kind') ?? 'v');
  const to = form.get('to') ?? '';
  const move: MadeUpMove = {
    day: story.day,
    ...NOTHING,
    ...((food.foodKg ?? 0) > 0 ? food : {}),
    ...deedOf('c', number('card'), undefined),
    ...deedOf('w', number('water'), undefined),
    ...deedOf('o', number('out'), undefined),
    loosen: form.get('loosen') === 'on',
    airC: to === '' ? null : (deedOf('t', Number(to), undefined).airC ?? null),
  };
  const before = story.moves.filter(({ day }) => day < story.day);
  const did = spell(move).length > 0;
  return {
    ...story,
    moves: did ? [...before, move] : before,
    day: Math.round(within(story.day + within(number('on'), 0, MADE_UP_DAYS), 0, MADE_UP_DAYS)),
  };
}

/** Bins to begin with: a well one, and some that a class can try to rescue. */
export const STARTS = {
  well: 'story=0s1_0c0.2_7s1_7c0.2_14s1_14c0.2&day=21',
  heap: 'story=0f12&day=4',
  soup: 'story=0w10&day=7',
  grass: 'bed=thin&story=0f12g&day=7',
  desert: 'bed=thin&air=25&story=0f0.2&day=35',
  frost: 'story=0s1_7t-5&day=14',
} as const;
export type Start = keyof typeof STARTS;
