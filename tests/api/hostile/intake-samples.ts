import type { RouteName } from '@middenry/contract';
import { freshId, SITES } from '../../cast.ts';
import { changed, type Make } from './sample.ts';

export const intakeSamples = {
  listIntakePlans: () => ({ who: 'siteLead', url: `/api/intake-plans?siteId=${SITES.meadow}` }),
  planIntake: () => {
    const streams = [{ source: 'Corner cafe', materialId: 'coffee_grounds', massKg: 4 }];
    const body = { id: freshId(), siteId: SITES.meadow, on: '2026-11-27', streams };
    const url = '/api/intake-plans';
    return {
      who: 'siteLead',
      url,
      body,
      notTheirs: [{ who: 'siteLead', url, body: { ...body, siteId: SITES.school } }],
      also: changed(body, {
        'yesterday’s scraps': { on: '2026-11-24' },
        'scraps of next month': { on: '2026-12-27' },
        'a material that is not there': { streams: [{ ...streams[0], materialId: 'moon_dust' }] },
      }),
    };
  },
  acceptIntake: ({ intakeId, schoolIntakeId, shiftId, schoolShiftId }) => {
    const url = `/api/intake-plans/${intakeId}/accept`;
    const body = { id: freshId(), shiftId };
    return {
      who: 'siteLead',
      url,
      params: { id: intakeId },
      body,
      notTheirs: [{ who: 'siteLead', url: `/api/intake-plans/${schoolIntakeId}/accept`, body: { ...body, shiftId: schoolShiftId } }],
      also: changed(body, { 'a shift of the other site': { shiftId: schoolShiftId } }),
    };
  },
} satisfies Partial<Record<RouteName, Make>>;
