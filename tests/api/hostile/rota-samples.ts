import type { RouteName } from '@middenry/contract';
import { PEOPLE, SITES } from '../../cast.ts';
import { changed, type Make } from './sample.ts';

/** Who can come when, and who is asked. */
export const rotaSamples = {
  readAvailability: () => {
    const url = `/api/people/${PEOPLE.volunteer.id}/availability`;
    return { who: 'volunteer', url, params: { id: PEOPLE.volunteer.id }, notTheirs: [{ who: 'siteLead', url }] };
  },
  putAvailability: () => {
    const body = {
      weekly: [{ weekday: 6, from: '09:00', to: '12:00', liking: 'glad' }],
      away: [{ from: '2026-12-20', to: '2027-01-03' }],
      skills: ['lifting'],
      siteIds: [SITES.meadow],
      wish: { count: 2, per: 'month' },
      capPerWeek: 1,
      capPerDay: 1,
    };
    const url = `/api/people/${PEOPLE.volunteer.id}/availability`;
    return {
      who: 'volunteer',
      url,
      params: { id: PEOPLE.volunteer.id },
      body,
      notTheirs: [{ who: 'siteLead', url, body }],
      also: changed(body, {
        'a time that ends before it begins': { weekly: [{ weekday: 6, from: '12:00', to: '09:00' }] },
        'two times at once': { weekly: [...body.weekly, { weekday: 6, from: '11:00', to: '13:00' }] },
        'back before leaving': { away: [{ from: '2027-01-03', to: '2026-12-20' }] },
        'a site of nowhere': { siteIds: [PEOPLE.pupil.id] },
      }),
    };
  },
  putShiftNeeds: ({ shiftId, schoolShiftId }) => {
    const body = { needs: [{ skill: 'lifting', places: 1 }] };
    return {
      who: 'siteLead',
      url: `/api/shifts/${shiftId}/needs`,
      params: { id: shiftId },
      body,
      notTheirs: [{ who: 'siteLead', url: `/api/shifts/${schoolShiftId}/needs`, body }],
      also: changed(body, {
        'more than there are places': { needs: [{ skill: 'lifting', places: 3 }] },
        'a skill twice': { needs: [body.needs[0], body.needs[0]] },
      }),
    };
  },
} satisfies Partial<Record<RouteName, Make>>;
