import type { RouteName } from '@middenry/contract';
import { insertFlagNote } from '../../../apps/api/src/db/repositories/flag-note.ts';
import { BINS, type Cast, freshId, PEOPLE } from '../../cast.ts';
import { changed, type Make } from './sample.ts';
import type { Stage } from './stage.ts';

/** Far too much at once, so that a flag is up. */
async function heap({ cast }: Stage): Promise<void> {
  const items = [{ materialId: 'food_scraps_veg', massKg: 14, how: 'weighed' }];
  const happenedAt = '2026-11-24T09:00:00Z';
  await cast.call('coordinator', 'POST', '/api/feedings', { id: freshId(), binId: BINS.tote, happenedAt, zone: 1, items });
}

/** A flag put aside, at each site. */
export function makeFlagNote({ store }: Cast, id: string, binId: string): void {
  const said = { kind: 'aside', band: 'act', reason: 'A fan is on its way', untilOn: '2026-11-30' } as const;
  const on = { madeOn: '2026-11-25', madeAt: '2026-11-25T09:00:00.000Z', personId: PEOPLE.siteLead.id };
  insertFlagNote(store, { id, binId, signal: 'overfed', ...said, ...on });
}

export const flagSamples = {
  noteFlag: () => {
    const body = { id: freshId(), signal: 'overfed', kind: 'aside', reason: 'A fan is on its way', untilOn: '2026-12-20' };
    return {
      who: 'siteLead',
      url: `/api/bins/${BINS.tote}/flag-notes`,
      params: { id: BINS.tote },
      body,
      notTheirs: [{ who: 'siteLead', url: `/api/bins/${BINS.school}/flag-notes`, body }],
      ready: heap,
      also: changed(body, {
        'no reason': { reason: ' ' },
        'no end': { untilOn: undefined },
        'an end that is over': { untilOn: '2026-11-24' },
        'an end too far off': { untilOn: '2026-12-26' },
        'seen until a day': { kind: 'seen' },
        'a flag that is down': { signal: 'cold' },
      }),
    };
  },
  endFlagNote: ({ flagNoteId, schoolFlagNoteId }) => ({
    who: 'siteLead',
    url: `/api/flag-notes/${flagNoteId}`,
    params: { id: flagNoteId },
    notTheirs: [{ who: 'siteLead', url: `/api/flag-notes/${schoolFlagNoteId}` }],
  }),
} satisfies Partial<Record<RouteName, Make>>;
