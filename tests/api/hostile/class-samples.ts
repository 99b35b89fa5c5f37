import type { RouteName } from '@middenry/contract';
import { freshId, SITES } from '../../cast.ts';
import type { Make } from './sample.ts';

export const classSamples = {
  listClasses: () => ({ who: 'siteLead', url: '/api/classes' }),
  addClass: () => {
    const body = { id: freshId(), siteId: SITES.meadow, name: 'Year 6', ageBand: '9-12' };
    const notTheirs = [{ who: 'siteLead' as const, url: '/api/classes', body: { ...body, siteId: SITES.school } }];
    return { who: 'siteLead', url: '/api/classes', body, notTheirs };
  },
  addPupil: ({ classId, schoolClassId }) => {
    const body = { id: freshId(), name: 'Ada L.' };
    const notTheirs = [{ who: 'siteLead' as const, url: `/api/classes/${schoolClassId}/pupils`, body }];
    return { who: 'siteLead', url: `/api/classes/${classId}/pupils`, params: { id: classId }, body, notTheirs };
  },
  renewCard: ({ card, schoolCard }) => {
    const notTheirs = [{ who: 'siteLead' as const, url: `/api/pupils/${schoolCard.id}/card`, body: {} }];
    return { who: 'siteLead', url: `/api/pupils/${card.id}/card`, params: { id: card.id }, body: {}, notTheirs };
  },
  erasePupil: ({ card, schoolCard }) => {
    const notTheirs = [{ who: 'siteLead' as const, url: `/api/pupils/${schoolCard.id}` }];
    return { who: 'siteLead', url: `/api/pupils/${card.id}`, params: { id: card.id }, notTheirs };
  },
  enterAsPupil: ({ card }) => ({
    who: null,
    url: '/api/session/pupil',
    body: { classCode: card.classCode.toLowerCase(), pictures: card.pictures },
  }),
} satisfies Partial<Record<RouteName, Make>>;
