import type { RouteName } from '@middenry/contract';
import { BINS, freshId, PEOPLE } from '../../cast.ts';
import { changed, type Make } from './sample.ts';
import { feeding } from './stage.ts';

/** What no entry at a bin may say. */
const badTimes = {
  'the day before the bin began': { happenedAt: '2026-05-31T12:00:00Z' },
  'a year before the bin began': { happenedAt: '2025-06-01T12:00:00Z' },
  'the year 0001': { happenedAt: '0001-01-01T00:00:00Z' },
  'an hour from now': { happenedAt: '2026-11-25T11:00:00Z' },
  'the year 9999': { happenedAt: '9999-12-31T00:00:00Z' },
};

const badFood = (materialId: string): Record<string, unknown> => ({ items: [{ materialId, massKg: 0.5, how: 'weighed' }] });

export const entrySamples = {
  logFeeding: () => {
    const body = feeding(freshId());
    const full = { ...body, beddingKg: 0.2, beddingMaterialId: 'cardboard_corrugated', waterKg: 0.1, note: 'Under the card' };
    return {
      who: 'volunteer',
      url: '/api/feedings',
      body: full,
      also: changed(full, {
        ...badTimes,
        'a zone that this bin lacks': { zone: 3 },
        'a food that never goes in': badFood('cheese'),
        'a food whose figures are missing': badFood('cull_potatoes'),
        'a food that nobody knows': badFood('moon_cheese'),
        'a bedding that nobody knows': { beddingMaterialId: 'moon_dust' },
        'a container of the other site': {
          items: [{ materialId: 'apple', massKg: 1, how: 'container', containerId: freshId(), containerCount: 1 }],
        },
      }),
    };
  },
  readPocket: () => ({ who: 'pupil', url: '/api/pocket' }),
  logBatch: () => ({
    who: 'coordinator',
    url: '/api/entries/batch',
    body: {
      personId: PEOPLE.coordinator.id,
      deviceAt: '2026-11-25T10:00:00Z',
      entries: [{ kind: 'feeding', keptAt: '2026-11-24T09:00:00Z', body: feeding(freshId()) }],
    },
  }),
  logCheck: () => {
    const body = {
      id: freshId(),
      binId: BINS.tote,
      happenedAt: '2026-11-24T10:00:00Z',
      leftover: [{ zone: 1, left: 'half' }],
      squeeze: 'damp',
      smell: 'earthy',
      bedTempC: 18,
      worms: 'many',
      ph: 7,
      visitors: ['fruit-flies'],
    };
    return {
      who: 'volunteer',
      url: '/api/checks',
      body,
      also: changed(body, { ...badTimes, 'a zone that this bin lacks': { leftover: [{ zone: 3, left: 'half' }] } }),
    };
  },
  logHarvest: ({ containerId, schoolContainerId }) => {
    const body = {
      id: freshId(),
      binId: BINS.tote,
      happenedAt: '2026-11-24T10:00:00Z',
      massKg: 2.5,
      destination: 'beds',
      destinationNote: 'Leeks',
      buckets: [
        { grossKg: 1.9, tareKg: 0.4, containerId, typed: { value: 1.9, unit: 'kg' } },
        { grossKg: 1.4, tareKg: 0.4 },
      ],
      moisture: { how: 'oven', dishG: 4, wetG: 54, dryG: 18 },
      screened: true,
      volumeL: 4,
    };
    const changes = {
      ...badTimes,
      'buckets that hold another weight': { massKg: 2.6 },
      'a bucket that weighs no more than when empty': { buckets: [{ grossKg: 0.4, tareKg: 0.4 }] },
      'a bucket of the other site': { buckets: [{ grossKg: 2.9, tareKg: 0.4, containerId: schoolContainerId }] },
      'a dry sample that is heavier than the wet one': { moisture: { how: 'oven', dishG: 4, wetG: 18, dryG: 54 } },
      'a dry sample that is less than its dish': { moisture: { how: 'oven', dishG: 18, wetG: 54, dryG: 4 } },
      'a day of being ready for what does not cure': { readyOn: '2026-12-24' },
      'ready before it was harvested': { destination: 'curing', readyOn: '2026-11-23' },
    };
    return { who: 'volunteer', url: '/api/harvests', body, also: changed(body, changes) };
  },
  listEntries: () => ({ who: 'pupil', url: `/api/bins/${BINS.tote}/entries?limit=5`, params: { id: BINS.tote } }),
  readEntry: ({ feedingId }) => ({ who: 'pupil', url: `/api/entries/${feedingId}`, params: { id: feedingId } }),
  undoEntry: ({ feedingId }) => ({
    who: 'volunteer',
    url: `/api/entries/${feedingId}`,
    params: { id: feedingId },
    notTheirs: [{ who: 'otherVolunteer', url: `/api/entries/${feedingId}` }],
  }),
} satisfies Partial<Record<RouteName, Make>>;
