// Data: the words of what the board shows: which part of it, and what many bins share.
import type { SignalId } from '@middenry/domain';

const spread = {
  airless: 'short of air',
  overfed: 'given more food than they eat',
  hungry: 'short of food',
  dry: 'too dry',
  wet: 'too wet',
  hot: 'too warm',
  cold: 'too cold',
  sour: 'turning sour',
  ammonia: 'giving off a sharp gas',
  'bedding-low': 'low on bedding',
  'harvest-due': 'ready to harvest',
  unseen: 'left alone',
} as const satisfies Record<SignalId, string>;

export const sighting = {
  /** How long something has lasted, once days would take three digits. */
  spans: {
    months: (n: number) => `${n} months`,
    years: (n: number) => (n === 1 ? 'a year' : `${n} years`),
  },
  select: {
    open: 'Show only some',
    site: 'Site',
    everySite: 'Every site',
    mine: 'Only my sites',
    mySites: 'my sites',
    bands: 'In the list, only',
    show: 'Show these',
    only: (what: string) => `You see only: ${what}.`,
    all: 'Show all',
    none: 'No bin is like that now.',
  },
  spread: {
    bins: (n: number) => `${n} bins`,
    /** Where it is still to come in some of them it says so. */
    says: (signal: SignalId, n: number, holdsNow: boolean) => `${n} bins are ${spread[signal]}${holdsNow ? '' : ', or soon will be'}.`,
    since: (since: string) => `together ${since}`,
    by: (day: string) => `together by ${day}`,
    helps: (times: number, n: number) => (times === n ? 'Helps most:' : `Helps most at ${times} of them:`),
    why: 'All of them within a day, so look for one cause.',
    each: 'One by one',
  },
} as const;
