import type { RouteName } from '@middenry/contract';
import { freshId, PEOPLE, SITES } from '../../cast.ts';
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
  fillGaps: () => {
    const body = { id: freshId(), from: '2026-12-01', to: '2026-12-31', siteIds: [SITES.meadow], seconds: 5 };
    return {
      who: 'coordinator',
      url: '/api/rota/runs',
      body,
      also: changed(body, {
        'a last day before the first': { to: '2026-11-30' },
        'more than half a year': { to: '2027-12-31' },
        'a site of nowhere': { siteIds: [PEOPLE.pupil.id] },
      }),
    };
  },
  listRotaRuns: () => ({ who: 'coordinator', url: '/api/rota/runs' }),
  readRotaRun: ({ runId }) => ({ who: 'coordinator', url: `/api/rota/runs/${runId}`, params: { id: runId } }),
  sendInvitations: ({ runId, invitationId }) => {
    const body = { id: freshId(), proposalIds: [invitationId] };
    return {
      who: 'coordinator',
      url: `/api/rota/runs/${runId}/invitations`,
      params: { id: runId },
      body,
      also: changed(body, { 'a proposal of nowhere': { proposalIds: [freshId()] } }),
    };
  },
  listInvitations: () => ({ who: 'otherVolunteer', url: '/api/invitations' }),
  acceptInvitation: ({ invitationId }) => ({
    who: 'otherVolunteer',
    url: `/api/invitations/${invitationId}/accept`,
    params: { id: invitationId },
    body: { id: freshId() },
    ready: ({ cast }, who) => {
      cast.store.sqlite.prepare('UPDATE rota_proposal SET person_id = ? WHERE id = ?').run(PEOPLE[who!].id, invitationId);
    },
  }),
  endInvitation: ({ invitationId }) => {
    const url = `/api/invitations/${invitationId}`;
    return { who: 'otherVolunteer', url, params: { id: invitationId }, notTheirs: [{ who: 'volunteer', url }] };
  },
} satisfies Partial<Record<RouteName, Make>>;
