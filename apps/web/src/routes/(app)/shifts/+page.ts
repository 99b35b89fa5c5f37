import { need } from '$lib/api/call.ts';
import { addDays } from '$lib/format/days.ts';
import type { PageLoad } from './$types';

const WEEKS_AHEAD_DAYS = 56;

export const load: PageLoad = async ({ fetch, parent, url, depends }) => {
  depends('app:shifts');
  const { session, person } = await parent();
  const [shifts, bins, places, asked] = await Promise.all([
    need(fetch, 'listShifts', { query: { from: session.today, to: addDays(session.today, WEEKS_AHEAD_DAYS) } }),
    need(fetch, 'listBins'),
    need(fetch, 'readPlaces', { query: { days: WEEKS_AHEAD_DAYS } }),
    person.role === 'pupil' ? { items: [] } : need(fetch, 'listInvitations'),
  ]);
  const done = url.searchParams.get('done');
  return { shifts: shifts.items, bins: bins.items, fits: places.fits, terms: places.seasons, asked: asked.items, done };
};
