import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url, depends, parent }) => {
  depends('app:shifts');
  const { session } = await parent();
  const [sites, materials, plans, shifts] = await Promise.all([
    need(fetch, 'listSites'),
    need(fetch, 'listMaterials'),
    need(fetch, 'listIntakePlans'),
    need(fetch, 'listShifts', { query: { from: session.today } }),
  ]);
  return {
    sites: sites.items.filter((s) => !s.archived),
    foods: materials.items.filter((m) => m.kind === 'food' && !m.hidden),
    plans: plans.items,
    shifts: shifts.items.filter((s) => !s.cancelled && !s.over),
    accepted: url.searchParams.has('accepted'),
  };
};
