import type { RouteName } from '@middenry/contract';
import { BINS, freshId, SITES } from '../../cast.ts';
import { changed, type Make } from './sample.ts';
import { feeding } from './stage.ts';

const entry = (change: object): Record<string, unknown> => ({
  id: freshId(),
  binId: BINS.tote,
  happenedAt: '2026-11-24T10:00:00Z',
  ...change,
});

/** Care, corrections and what a site knows of its own. */
export const tradeSamples = {
  logCare: () => {
    const body = entry({ action: 'bedding', massKg: 0.5, materialId: 'coir', zone: 1, note: 'on top' });
    const changes = {
      'bedding of no weight': { massKg: null },
      'a move to nowhere': { action: 'moved' },
      'a bedding that never goes in': { materialId: 'glossy_paper' },
      'a zone that this bin lacks': { zone: 3 },
      'to retire a bin without being asked': { action: 'retired' },
      'the day before the bin began': { happenedAt: '2026-05-31T12:00:00Z' },
      'a bin that is not there': { binId: freshId() },
    };
    return { who: 'volunteer', url: '/api/cares', body, also: changed(body, changes) };
  },
  logNote: () => {
    const body = entry({ note: 'Lid is cracked' });
    return { who: 'volunteer', url: '/api/notes', body, also: changed(body, { 'a note that says nothing': { note: '   ' } }) };
  },
  logWorms: () => {
    const body = entry({ direction: 'added', massKg: 0.25, how: 'weighed', otherBinId: BINS.flow });
    const changes = {
      'worms of no weight': { massKg: null },
      'a share of worms that came': { share: 0.5 },
      'worms from the same bin': { otherBinId: BINS.tote },
      'worms from a bin that is not there': { otherBinId: freshId() },
    };
    return { who: 'volunteer', url: '/api/worms', body, also: changed(body, changes) };
  },
  correctEntry: ({ feedingId }) => {
    const { id: _id, ...content } = feeding(feedingId);
    const body = { kind: 'feeding', ...content, note: 'Half of it was card' };
    const request = { url: `/api/entries/${feedingId}`, body, headers: { 'if-match': '"1"' } };
    const changes = {
      'another kind': { kind: 'harvest', massKg: 1, destination: 'beds' },
      'a zone that this bin lacks': { zone: 3 },
      'a day before the bin': { happenedAt: '2026-05-31T12:00:00Z' },
    };
    const notTheirs = (['pupil', 'otherVolunteer'] as const).map((who) => ({ who, ...request }));
    return { who: 'volunteer', params: { id: feedingId }, ...request, notTheirs, also: changed(body, changes) };
  },
  readEntryHistory: ({ feedingId }) => ({ who: 'pupil', url: `/api/entries/${feedingId}/history`, params: { id: feedingId } }),
  weighContainer: ({ containerId }) => {
    const body = { id: freshId(), massKg: 3.2, filled: 0.9 };
    const also = changed(body, { 'less than the empty container': { massKg: 0.3 } });
    return { who: 'volunteer', url: `/api/containers/${containerId}/weighings`, params: { id: containerId }, body, also };
  },
  fillMaterial: () => {
    const body = { moistureFracWb: 0.8, carbonFracDb: 0.4, nitrogenFracDb: 0.02, bulkDensityKgM3: 300, source: 'our own oven' };
    return {
      who: 'coordinator',
      url: '/api/materials/potato_tops/figures',
      params: { id: 'potato_tops' },
      body,
      also: changed(body, { 'a figure still missing': { bulkDensityKgM3: undefined } }),
    };
  },
  joinWaiting: ({ shiftId }) => ({
    who: 'otherVolunteer',
    url: `/api/shifts/${shiftId}/waiting`,
    params: { id: shiftId },
    body: { id: freshId() },
  }),
  leaveWaiting: ({ schoolShiftId, waitingId }) => {
    const url = `/api/shifts/${schoolShiftId}/waiting/${waitingId}`;
    return { who: 'otherVolunteer', url, params: { id: schoolShiftId, waitingId }, notTheirs: [{ who: 'volunteer', url }] };
  },
  readBeddingStock: () => ({ who: 'pupil', url: `/api/bedding-stock?siteId=${SITES.meadow}` }),
  listBeddingMoves: () => ({ who: 'pupil', url: `/api/bedding-moves?siteId=${SITES.meadow}` }),
  moveBedding: () => {
    const body = { id: freshId(), siteId: SITES.meadow, materialId: 'coir', kind: 'brought', massKg: 4, note: 'from the shop' };
    const changes = {
      'a bedding that is a food': { materialId: 'apple' },
      'a bedding that nobody knows': { materialId: 'moon_dust' },
      'a site that is not there': { siteId: freshId() },
      'nothing at all': { massKg: 0 },
    };
    return { who: 'volunteer', url: '/api/bedding-moves', body, also: changed(body, changes) };
  },
  listAirReadings: () => ({ who: 'pupil', url: `/api/sites/${SITES.meadow}/air-readings?from=2026-11-01`, params: { id: SITES.meadow } }),
  putAirReadings: () => {
    const body = { items: [{ on: '2026-11-20', meanC: 8 }] };
    const changes = {
      'a day still to come': { items: [{ on: '2026-12-25', meanC: 8 }] },
      'both ways at once': { csv: '2026-11-20,8' },
    };
    return {
      who: 'siteLead',
      url: `/api/sites/${SITES.meadow}/air-readings`,
      params: { id: SITES.meadow },
      body,
      notTheirs: [{ who: 'siteLead', url: `/api/sites/${SITES.school}/air-readings`, body }],
      also: changed(body, changes),
    };
  },
} satisfies Partial<Record<RouteName, Make>>;
