import type { RouteName } from '@middenry/contract';
import { freshId, PEOPLE, SITES } from '../../cast.ts';
import { changed, type Make } from './sample.ts';

/** What people do with places beyond taking them: swap, bring pupils. */
export const shiftSamples = {
  offerSwap: ({ shiftId, schoolShiftId, signUpId }) => {
    const body = { id: freshId(), signUpId, toPersonId: PEOPLE.otherVolunteer.id, inReturn: [schoolShiftId] };
    const url = `/api/shifts/${shiftId}/swaps`;
    return {
      who: 'volunteer',
      url,
      params: { id: shiftId },
      body,
      notTheirs: [{ who: 'otherVolunteer', url, body: { id: freshId(), signUpId } }],
      also: changed(body, { 'to a pupil': { toPersonId: PEOPLE.pupil.id }, 'to oneself': { toPersonId: PEOPLE.volunteer.id } }),
    };
  },
  acceptSwap: ({ swapId }) => ({
    who: 'siteLead',
    url: `/api/swaps/${swapId}/accept`,
    params: { id: swapId },
    body: { id: freshId() },
  }),
  endSwap: ({ swapId }) => {
    const url = `/api/swaps/${swapId}`;
    return { who: 'volunteer', url, params: { id: swapId }, notTheirs: [{ who: 'otherVolunteer', url }] };
  },
  addPupilGroup: ({ shiftId, schoolShiftId, classId, schoolClassId }) => {
    const otherClassId = freshId();
    const url = `/api/shifts/${shiftId}/groups`;
    const body = { id: freshId(), classId: otherClassId, pupils: 8 };
    return {
      who: 'siteLead',
      url,
      params: { id: shiftId },
      body,
      ready: async ({ cast }) => {
        await cast.call('owner', 'POST', '/api/classes', { id: otherClassId, siteId: SITES.meadow, name: 'Year 6', ageBand: '9-12' });
      },
      notTheirs: [{ who: 'siteLead', url: `/api/shifts/${schoolShiftId}/groups`, body: { ...body, classId: schoolClassId } }],
      also: changed(body, {
        'a class that comes already': { classId },
        'a class of the other site': { classId: schoolClassId },
        'more pupils than places': { pupils: 60 },
      }),
    };
  },
  checkInPupils: ({ shiftId, groupId, schoolShiftId, schoolGroupId }) => {
    const body = { checkedIn: true };
    return {
      who: 'siteLead',
      url: `/api/shifts/${shiftId}/groups/${groupId}`,
      params: { id: shiftId, groupId },
      body,
      ready: async ({ cast }) => {
        await cast.call('owner', 'PATCH', `/api/people/${PEOPLE.volunteer.id}`, { cleared: true });
        await cast.call('owner', 'PATCH', `/api/shifts/${shiftId}`, {
          leastAdults: 1,
          leastAdultsReason: 'The teacher stays in the room.',
        });
      },
      notTheirs: [{ who: 'siteLead', url: `/api/shifts/${schoolShiftId}/groups/${schoolGroupId}`, body }],
      also: changed(body, { 'before enough adults come': {} }),
    };
  },
  takeOffPupilGroup: ({ shiftId, groupId, schoolShiftId, schoolGroupId }) => ({
    who: 'siteLead',
    url: `/api/shifts/${shiftId}/groups/${groupId}`,
    params: { id: shiftId, groupId },
    notTheirs: [{ who: 'siteLead', url: `/api/shifts/${schoolShiftId}/groups/${schoolGroupId}` }],
  }),
} satisfies Partial<Record<RouteName, Make>>;
