import type { CautionId, RemedyId } from '../signals/types.ts';
import type { DutyKind } from './types.ts';

/** What is likely when a duty is missed; the words live in the web's messages. */
export const IF_MISSED = [
  'worms-go-hungry',
  'trouble-unseen',
  'bed-packs',
  'worms-dry-out',
  'turns-wet',
  'microbes-thin-out',
  'castings-choke',
  'nothing',
] as const;
export type IfMissed = (typeof IF_MISSED)[number];

interface DutyFacts {
  readonly ifMissed: IfMissed;
  /** To be read before it is done; `pupils` is added where pupils come. */
  readonly cautions: readonly CautionId[];
}

export const DUTY_FACTS: Readonly<Record<DutyKind, DutyFacts>> = {
  feed: { ifMissed: 'worms-go-hungry', cautions: ['gloves', 'food-from-outside'] },
  check: { ifMissed: 'trouble-unseen', cautions: ['gloves'] },
  loosen: { ifMissed: 'bed-packs', cautions: ['gloves', 'damp-not-dusty'] },
  water: { ifMissed: 'worms-dry-out', cautions: ['gloves', 'flooding'] },
  bedding: { ifMissed: 'turns-wet', cautions: ['gloves', 'damp-not-dusty'] },
  inoculate: { ifMissed: 'microbes-thin-out', cautions: ['gloves'] },
  harvest: { ifMissed: 'castings-choke', cautions: ['gloves', 'damp-not-dusty', 'lifting', 'castings-on-food'] },
  rest: { ifMissed: 'nothing', cautions: [] },
};

/** The duty that is the same work as a remedy; none where no duty is. */
export const DUTY_OF_REMEDY: Readonly<Partial<Record<RemedyId, DutyKind>>> = {
  'feed-now': 'feed',
  loosen: 'loosen',
  'mix-in-bedding': 'bedding',
  'add-bedding': 'bedding',
  'add-water': 'water',
  harvest: 'harvest',
  inoculate: 'inoculate',
  check: 'check',
};

/** How pressing a duty is, in a word of ours. */
export const DUTY_URGENCIES = ['in-window', 'past-due', 'overdue'] as const;
export type DutyUrgencyWord = (typeof DUTY_URGENCIES)[number];

export const DUTY_RESULTS = ['done', 'partly', 'missed'] as const;
export type DutyResult = (typeof DUTY_RESULTS)[number];
