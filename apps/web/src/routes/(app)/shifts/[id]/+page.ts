import { call, need } from '$lib/api/call.ts';
import { addDays } from '$lib/format/days.ts';
import type { PageLoad } from './$types';

const WEEKS_AHEAD_DAYS = 56;
const DONE = ['changed', 'results', 'signed', 'off', 'in', 'out'] as const;

export const load: PageLoad = async ({ fetch, params, parent, url, depends }) => {
  depends('app:shifts');
  const { person, session } = await parent();
  const leads = person.role === 'coordinator' || person.role === 'site-lead';
  const [card, bins, coming, classes, told] = await Promise.all([
    need(fetch, 'readShiftCard', { params }),
    need(fetch, 'listBins'),
    need(fetch, 'listShifts', { query: { from: session.today, to: addDays(session.today, WEEKS_AHEAD_DAYS) } }),
    leads ? need(fetch, 'listClasses') : { items: [] },
    // A site lead of another site may read the card, and not whom its people are told.
    leads ? call(fetch, 'listTold', { params }) : null,
  ]);
  const done = url.searchParams.get('done');
  return {
    card,
    bins: bins.items,
    coming: coming.items,
    classes: classes.items,
    told: told === null || told.ok ? (told?.data.items ?? []) : told.problem.status === 404 ? [] : null,
    now: new Date().toISOString(),
    done: DONE.find((d) => d === done) ?? null,
  };
};
