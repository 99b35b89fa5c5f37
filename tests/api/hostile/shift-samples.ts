import type { RouteName } from '@middenry/contract';
import { BINS, freshId, PEOPLE, SITES } from '../../cast.ts';
import { changed, type Make } from './sample.ts';
import { season, shift } from './stage.ts';

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
  readShiftCard: ({ shiftId }) => ({ who: 'pupil', url: `/api/shifts/${shiftId}/card`, params: { id: shiftId } }),
  sayResults: ({ shiftId, signUpId }) => {
    const url = `/api/shifts/${shiftId}/results`;
    const results = [{ binId: BINS.tote, kind: 'feed', result: 'partly', note: 'Half was frozen' }];
    const body = { results, came: [{ signUpId, attended: true, minutes: 50 }] };
    return {
      who: 'volunteer',
      url,
      at: '2026-12-05T12:00:00Z',
      params: { id: shiftId },
      body,
      notTheirs: [{ who: 'otherVolunteer', url, body }],
      also: changed(body, { 'a duty that it has not': { results: [{ ...results[0], kind: 'harvest' }] } }),
    };
  },
  readPlaces: () => ({ who: 'pupil', url: `/api/places?days=30&siteId=${SITES.meadow}` }),
  listSignUpSeasons: () => ({ who: 'pupil', url: `/api/sign-up-seasons?siteId=${SITES.meadow}` }),
  addSignUpSeason: () => {
    const body = { ...season(freshId(), SITES.meadow), from: '2027-06-01', to: '2027-08-31', cap: 3 };
    const url = '/api/sign-up-seasons';
    return {
      who: 'siteLead',
      url,
      body,
      notTheirs: [{ who: 'siteLead', url, body: { ...body, siteId: SITES.school } }],
      also: changed(body, { 'over another term': { from: '2027-05-01' }, 'an end before its beginning': { to: '2027-05-31' } }),
    };
  },
  changeSignUpSeason: ({ seasonId, schoolSeasonId }) => {
    const body = { name: 'Spring', way: 'first-come', cap: 1, to: '2027-05-30', opensAt: '2027-02-02T09:00:00Z' };
    return {
      who: 'siteLead',
      url: `/api/sign-up-seasons/${seasonId}`,
      params: { id: seasonId },
      body,
      notTheirs: [{ who: 'siteLead', url: `/api/sign-up-seasons/${schoolSeasonId}`, body }],
      also: changed(body, { 'an end before its beginning': { to: '2027-02-28' } }),
    };
  },
  putWishes: ({ seasonId }) => {
    const shiftId = freshId();
    return {
      who: 'volunteer',
      url: `/api/sign-up-seasons/${seasonId}/wishes`,
      params: { id: seasonId },
      body: { most: 2, shiftIds: [shiftId] },
      ready: async ({ cast }) => {
        await cast.call('owner', 'POST', '/api/shifts', { ...shift(shiftId, SITES.meadow, BINS.tote), localDate: '2027-03-06' });
      },
    };
  },
  drawPlaces: ({ seasonId, schoolSeasonId }) => ({
    who: 'siteLead',
    url: `/api/sign-up-seasons/${seasonId}/draw`,
    params: { id: seasonId },
    body: {},
    at: '2026-12-02T10:00:00Z',
    notTheirs: [{ who: 'siteLead', url: `/api/sign-up-seasons/${schoolSeasonId}/draw`, body: {} }],
  }),
  listProposals: () => ({ who: 'siteLead', url: `/api/shift-proposals?siteId=${SITES.meadow}&weeks=2` }),
  acceptProposals: ({ shiftId }) => {
    const made = {
      ...{ title: 'Bins by the gate', localDate: '2026-12-12', localTime: '09:00', minutes: 60, places: 2 },
      duties: [{ binId: BINS.tote, kind: 'check' }],
    };
    const body = { id: freshId(), siteId: SITES.meadow, shifts: [{ ...made, standingId: shiftId }, made] };
    const url = '/api/shift-proposals/accepted';
    const both = { ...made, duties: ['feed', 'harvest'].map((kind) => ({ binId: BINS.tote, kind })) };
    return {
      who: 'siteLead',
      url,
      body,
      notTheirs: [{ who: 'siteLead', url, body: { ...body, siteId: SITES.school } }],
      also: changed(body, { 'food and harvest at once': { shifts: [both] } }),
    };
  },
  dropDuties: () => {
    const body = { siteId: SITES.meadow, duties: [{ binId: BINS.tote, kind: 'check' }], back: false };
    const url = '/api/shift-proposals/dropped';
    return {
      who: 'siteLead',
      url,
      body,
      notTheirs: [{ who: 'siteLead', url, body: { ...body, siteId: SITES.school } }],
      also: changed(body, { 'a duty of the other site': { duties: [{ binId: BINS.school, kind: 'check' }] } }),
    };
  },
  listDuties: () => ({ who: 'pupil', url: `/api/duties?siteId=${SITES.meadow}&binId=${BINS.tote}&days=30` }),
  readSiteTimes: () => ({ who: 'pupil', url: `/api/sites/${SITES.meadow}/times`, params: { id: SITES.meadow } }),
  putSiteTimes: () => {
    const body = {
      open: [{ weekday: 6, from: '10:00', to: '13:00' }],
      closed: [{ from: '2026-12-20', to: '2027-01-03', label: 'Winter holidays' }],
      minutes: [{ kind: 'feed', minutes: 12 }],
    };
    return {
      who: 'siteLead',
      url: `/api/sites/${SITES.meadow}/times`,
      params: { id: SITES.meadow },
      body,
      notTheirs: [{ who: 'siteLead', url: `/api/sites/${SITES.school}/times`, body }],
      also: changed(body, {
        'open before it closes': { open: [{ weekday: 6, from: '13:00', to: '10:00' }] },
        'a weekday twice': { open: [body.open[0], body.open[0]] },
        'a holiday that ends before it begins': { closed: [{ from: '2027-01-03', to: '2026-12-20' }] },
      }),
    };
  },
} satisfies Partial<Record<RouteName, Make>>;
