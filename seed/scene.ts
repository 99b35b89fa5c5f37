/** One bin, one day, and an act of somebody on it. */
import type { BinEvent, BinView } from '@middenry/domain';
import { startOf } from '../apps/api/src/services/local-time.ts';
import type { Chance } from './chance.ts';
import { eventOf } from './events.ts';
import type { BinStory, Trouble } from './world/bins.ts';
import { type SiteStory, TIME_ZONE } from './world/sites.ts';

export interface Act {
  readonly at: Date;
  readonly url: string;
  readonly body: Readonly<Record<string, unknown>>;
  readonly event: BinEvent | null;
}

export interface Scene {
  readonly story: BinStory;
  readonly site: SiteStory;
  /** The day on which the demonstration stands. */
  readonly today: string;
  readonly chance: Chance;
  readonly containerIds: ReadonlyMap<string, string>;
}

export interface Visit {
  readonly on: string;
  readonly daysAgo: number;
  /** The bin as it lies. */
  readonly view: BinView;
  /** Food of a week by the advice [kg]. */
  readonly weekKg: number;
}

/** Trouble begins so many days before today. */
const TROUBLE_DAYS: Readonly<Record<Trouble, number>> = { overfed: 16, airless: 9, dry: 22, hot: 5, unseen: 34, 'harvest-due': 9999 };

/** On these days before today people bring what they should not; in between they stay away. */
export const TROUBLE_FEED_DAYS: Readonly<Partial<Record<Trouble, readonly number[]>>> = {
  overfed: [15, 11, 8, 5, 2, 1],
  airless: [9, 7, 5, 3, 2, 1],
};

/** On these days before today somebody looks at what is wrong, and says so. */
export const TROUBLE_CHECK_DAYS: Readonly<Partial<Record<Trouble, readonly number[]>>> = { hot: [3, 1], dry: [9, 2] };

export const inTrouble = (story: BinStory, daysAgo: number): boolean =>
  story.trouble !== undefined && daysAgo <= TROUBLE_DAYS[story.trouble];
export const isTrouble = (story: BinStory, daysAgo: number, trouble: Trouble): boolean =>
  story.trouble === trouble && inTrouble(story, daysAgo);

const CLOCK_TIMES = ['08:40', '10:15', '12:20', '15:35', '17:50'];

export function act({ chance }: Scene, on: string, url: string, body: Act['body']): Act {
  const { startsAt } = startOf({ localDate: on, localTime: chance.pick(CLOCK_TIMES), timeZone: TIME_ZONE });
  const at = new Date(startsAt.getTime() + chance.whole(0, 1500) * 1000);
  return { at, url, body: { id: chance.id(at), happenedAt: at.toISOString(), ...body }, event: eventOf(url, body) };
}

export const grams = (massKg: number): number => Math.round(massKg * 1000) / 1000;
