import type { RouteName } from '@middenry/contract';
import { insertCastingsMove } from '../../../apps/api/src/db/repositories/castings.ts';
import { type Cast, freshId, PEOPLE, SITES } from '../../cast.ts';
import { changed, type Make } from './sample.ts';

/** Twenty kilograms that the volunteer brought in, long ago. */
export function makeCastings({ store }: Cast, id: string, siteId: string): void {
  insertCastingsMove(store, {
    ...{ id, siteId, kind: 'brought-in', grams: 20_000, how: 'weighed', typedValue: null, typedUnit: null },
    ...{ destination: null, destinationNote: '', receiver: null, note: 'From before' },
    ...{ personId: PEOPLE.volunteer.id, localDate: '2026-10-01', movedAt: '2026-10-01T09:00:00.000Z' },
  });
}

export const castingsSamples = {
  readCastingsStock: () => ({ who: 'pupil', url: `/api/castings-stock?siteId=${SITES.meadow}` }),
  listCastingsMoves: () => ({ who: 'pupil', url: `/api/castings-moves?siteId=${SITES.meadow}` }),
  moveCastings: () => {
    const body = {
      id: freshId(),
      siteId: SITES.meadow,
      kind: 'given-out',
      massKg: 2.5,
      typed: { value: 2.5, unit: 'kg' },
      destination: 'plots',
      destinationNote: 'Plot 12',
      receiver: 'Nell A.',
      on: '2026-11-24',
    };
    const changes = {
      'more than there is': { massKg: 20.001 },
      'a day to come': { on: '2026-11-26' },
      'before there were any': { on: '2026-09-30' },
      'to nobody': { destination: null },
      'somebody who brought some': { kind: 'brought-in', destination: null },
      'a site that is not there': { siteId: freshId() },
    };
    return { who: 'volunteer', url: '/api/castings-moves', body, also: changed(body, changes) };
  },
  undoCastingsMove: ({ castingsId, schoolCastingsId }) => ({
    who: 'volunteer',
    url: `/api/castings-moves/${castingsId}`,
    params: { id: castingsId },
    notTheirs: [
      { who: 'otherVolunteer', url: `/api/castings-moves/${castingsId}` },
      { who: 'siteLead', url: `/api/castings-moves/${schoolCastingsId}` },
    ],
  }),
  eraseReceiver: ({ castingsId, schoolCastingsId }) => ({
    who: 'siteLead',
    url: `/api/castings-moves/${castingsId}/receiver`,
    params: { id: castingsId },
    notTheirs: [{ who: 'siteLead', url: `/api/castings-moves/${schoolCastingsId}/receiver` }],
  }),
} satisfies Partial<Record<RouteName, Make>>;
