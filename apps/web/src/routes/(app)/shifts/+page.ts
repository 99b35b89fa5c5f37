import { need } from '$lib/api/call.ts';
import { addDays } from '$lib/format/days.ts';
import type { PageLoad } from './$types';

const WEEKS_AHEAD_DAYS = 56;
const DONE = ['taken', 'given', 'waiting', 'left'] as const;

export const load: PageLoad = async ({ fetch, parent, url, depends }) => {
  depends('app:shifts');
  const { session } = await parent();
  const [shifts, bins] = await Promise.all([
    need(fetch, 'listShifts', { query: { from: session.today, to: addDays(session.today, WEEKS_AHEAD_DAYS) } }),
    need(fetch, 'listBins'),
  ]);
  const done = url.searchParams.get('done');
  return { shifts: shifts.items, bins: bins.items, done: DONE.find((d) => d === done) ?? null };
};
