import type { RouteName } from '@middenry/contract';
import { BINS, freshId, PASSWORD, PEOPLE, SITES } from '../../cast.ts';
import { bringBackSamples } from './bring-back-samples.ts';
import { castingsSamples } from './castings-samples.ts';
import { classSamples } from './class-samples.ts';
import { consentSamples } from './consent-samples.ts';
import { entranceSamples } from './entrance-samples.ts';
import { entrySamples } from './entry-samples.ts';
import { flagSamples } from './flag-samples.ts';
import { importSamples } from './import-samples.ts';
import { intakeSamples } from './intake-samples.ts';
import { messageSamples } from './message-samples.ts';
import { ownDataSamples } from './own-data-samples.ts';
import { photoSamples } from './photo-samples.ts';
import { rotaSamples } from './rota-samples.ts';
import { changed, type Make } from './sample.ts';
import { seasonSamples } from './season-samples.ts';
import { shiftSamples } from './shift-samples.ts';
import { container, shift } from './stage.ts';
import { tradeSamples } from './trade-samples.ts';

const bin = (id: string): Record<string, unknown> => ({
  id,
  siteId: SITES.meadow,
  code: 'N1',
  name: 'New tote',
  kind: 'tote',
  areaM2: 0.2,
  depthM: 0.35,
  zones: 2,
  startedOn: '2026-06-01',
  wormsKg: 0.5,
  bedWaterKg: 4,
  bed: [{ materialId: 'cardboard_corrugated', massKg: 2 }],
});

const places = {
  readProgramme: () => ({ who: 'pupil', url: '/api/programme' }),
  changeProgramme: () => ({ who: 'coordinator', url: '/api/programme', body: { name: 'Three Gardens', units: 'us', locale: 'en-US' } }),
  listSites: () => ({ who: 'pupil', url: '/api/sites' }),
  addSite: () => {
    const body = { id: freshId(), name: 'Orchard End', timeZone: 'Europe/London', minC: Array(12).fill(5), maxC: Array(12).fill(15) };
    return {
      who: 'coordinator',
      url: '/api/sites',
      body,
      also: changed(body, { 'a zone of no map': { timeZone: 'Mars/Olympus' }, 'a name that is taken': { name: 'Long Meadow' } }),
    };
  },
  changeSite: () => ({
    who: 'siteLead',
    url: `/api/sites/${SITES.meadow}`,
    params: { id: SITES.meadow },
    body: { note: 'Key under the third pot' },
    notTheirs: [{ who: 'siteLead', url: `/api/sites/${SITES.school}`, body: { note: 'Mine now' } }],
  }),
  listBins: () => ({ who: 'pupil', url: `/api/bins?siteId=${SITES.meadow}` }),
  addBin: () => {
    const body = bin(freshId());
    return {
      who: 'siteLead',
      url: '/api/bins',
      body,
      notTheirs: [{ who: 'siteLead', url: '/api/bins', body: { ...bin(freshId()), siteId: SITES.school } }],
      also: changed(body, {
        'a code that is taken': { code: 'T1' },
        'a bed of nothing known': { bed: [{ materialId: 'moon_dust', massKg: 1 }] },
      }),
    };
  },
  readBin: () => ({ who: 'pupil', url: `/api/bins/${BINS.tote}`, params: { id: BINS.tote } }),
  changeBin: () => {
    const body = { name: 'Tote by the shed', zones: 2, depthM: 0.4, state: 'active' };
    return {
      who: 'siteLead',
      url: `/api/bins/${BINS.tote}`,
      params: { id: BINS.tote },
      body,
      notTheirs: [
        { who: 'siteLead', url: `/api/bins/${BINS.school}`, body },
        { who: 'siteLead', url: `/api/bins/${BINS.tote}`, body: { siteId: SITES.school } },
      ],
      also: changed(body, { 'a code that is taken': { code: 'S1' } }),
    };
  },
  readBinCard: () => ({ who: null, url: '/api/bin-cards/T1', params: { code: 'T1' } }),
  readBoard: () => ({ who: 'pupil', url: '/api/board' }),
  readLife: () => ({ who: 'pupil', url: `/api/bins/${BINS.tote}/life`, params: { id: BINS.tote } }),
  readEnsemble: () => ({ who: 'pupil', url: `/api/bins/${BINS.tote}/ensemble`, params: { id: BINS.tote } }),
  readWhatIf: () => ({ who: 'pupil', url: `/api/bins/${BINS.tote}/what-if?foodKg=2&zones=2&loosen=true`, params: { id: BINS.tote } }),
  readOutlook: () => ({ who: 'pupil', url: `/api/bins/${BINS.tote}/outlook?historyDays=30`, params: { id: BINS.tote } }),
} satisfies Partial<Record<RouteName, Make>>;

const people = {
  readSession: () => ({ who: null, url: '/api/session' }),
  signIn: () => ({ who: null, url: '/api/session', body: { email: 'nell@example.org', password: PASSWORD } }),
  enterDemo: () => ({ who: null, url: '/api/session/demo', body: { as: 'volunteer' } }),
  signOut: () => ({ who: 'volunteer', url: '/api/session' }),
  listPeople: () => ({ who: 'coordinator', url: '/api/people' }),
  addPerson: () => {
    const body = {
      id: freshId(),
      name: 'Nell Harrow',
      role: 'volunteer',
      siteIds: [SITES.meadow],
      email: 'harrow@example.org',
      isAdult: true,
      password: PASSWORD,
    };
    return { who: 'owner', url: '/api/people', body };
  },
  changePerson: () => ({
    who: 'owner',
    url: `/api/people/${PEOPLE.volunteer.id}`,
    params: { id: PEOPLE.volunteer.id },
    body: { name: 'Otis Barrow', role: 'site-lead', siteIds: [SITES.meadow] },
  }),
} satisfies Partial<Record<RouteName, Make>>;

const shifts = {
  listShifts: () => ({ who: 'pupil', url: `/api/shifts?from=2026-12-01&to=2026-12-31&siteId=${SITES.meadow}&open=true&mine=false` }),
  addShifts: () => {
    const body = { ...shift(freshId(), SITES.meadow, BINS.tote), weeks: 3 };
    return {
      who: 'siteLead',
      url: '/api/shifts',
      body,
      notTheirs: [{ who: 'siteLead', url: '/api/shifts', body: shift(freshId(), SITES.school, BINS.school) }],
      also: changed(body, { 'a bin of the other site': { binIds: [BINS.school], duties: [] } }),
    };
  },
  readShift: ({ shiftId }) => ({ who: 'pupil', url: `/api/shifts/${shiftId}`, params: { id: shiftId } }),
  changeShift: ({ shiftId, schoolShiftId }) => {
    const body = { title: 'Sunday bins', localDate: '2026-12-06', localTime: '11:00', places: 3 };
    return {
      who: 'siteLead',
      url: `/api/shifts/${shiftId}`,
      params: { id: shiftId },
      body,
      notTheirs: [{ who: 'siteLead', url: `/api/shifts/${schoolShiftId}`, body }],
    };
  },
  cancelShift: ({ shiftId, schoolShiftId }) => ({
    who: 'siteLead',
    url: `/api/shifts/${shiftId}`,
    params: { id: shiftId },
    notTheirs: [{ who: 'siteLead', url: `/api/shifts/${schoolShiftId}` }],
  }),
  takePlace: ({ shiftId }) => {
    const body = { id: freshId() };
    const url = `/api/shifts/${shiftId}/sign-ups`;
    return {
      who: 'otherVolunteer',
      url,
      params: { id: shiftId },
      body,
      also: changed(body, { 'a person that is not there': { personId: freshId() } }),
    };
  },
  changeSignUp: ({ shiftId, signUpId }) => {
    const url = `/api/shifts/${shiftId}/sign-ups/${signUpId}`;
    const body = { minutes: 55 };
    return {
      who: 'volunteer',
      url,
      at: '2026-12-05T12:00:00Z',
      params: { id: shiftId, signUpId },
      body,
      notTheirs: [{ who: 'otherVolunteer', url, body }],
    };
  },
  giveBackPlace: ({ shiftId, signUpId }) => {
    const url = `/api/shifts/${shiftId}/sign-ups/${signUpId}`;
    return { who: 'volunteer', url, params: { id: shiftId, signUpId }, notTheirs: [{ who: 'otherVolunteer', url }] };
  },
} satisfies Partial<Record<RouteName, Make>>;

const rest = {
  live: () => ({ who: null, url: '/livez' }),
  ready: () => ({ who: null, url: '/readyz' }),
  openapi: () => ({ who: null, url: '/api/openapi.json' }),
  listMaterials: () => ({ who: 'pupil', url: '/api/materials' }),
  addMaterial: () => {
    const body = {
      id: freshId(),
      name: 'Spent hops',
      kind: 'food',
      moistureFracWb: 0.8,
      carbonFracDb: 0.45,
      nitrogenFracDb: 0.03,
      bulkDensityKgM3: 400,
      like: 'brewers_grain',
    };
    return {
      who: 'coordinator',
      url: '/api/materials',
      body,
      also: changed(body, { 'rates like nothing known': { like: 'moon_cheese' } }),
    };
  },
  listContainers: () => ({ who: 'pupil', url: `/api/containers?siteId=${SITES.meadow}` }),
  addContainer: () => ({
    who: 'siteLead',
    url: '/api/containers',
    body: { ...container(freshId(), SITES.meadow), name: 'Green tub' },
    notTheirs: [{ who: 'siteLead', url: '/api/containers', body: { ...container(freshId(), SITES.school), name: 'Green tub' } }],
  }),
  changeContainer: ({ containerId, schoolContainerId }) => ({
    who: 'siteLead',
    url: `/api/containers/${containerId}`,
    params: { id: containerId },
    body: { name: 'Old blue caddy', fullKg: 3.2 },
    notTheirs: [{ who: 'siteLead', url: `/api/containers/${schoolContainerId}`, body: { fullKg: 9 } }],
  }),
} satisfies Partial<Record<RouteName, Make>>;

/** A good request for every route there is: the compiler refuses a route without one. */
export const samples: Readonly<Record<RouteName, Make>> = {
  ...entrySamples,
  ...classSamples,
  ...entranceSamples,
  ...tradeSamples,
  ...shiftSamples,
  ...intakeSamples,
  ...messageSamples,
  ...seasonSamples,
  ...rotaSamples,
  ...bringBackSamples,
  ...photoSamples,
  ...consentSamples,
  ...flagSamples,
  ...castingsSamples,
  ...importSamples,
  ...ownDataSamples,
  ...places,
  ...people,
  ...shifts,
  ...rest,
};
