import { error } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { readAround } from '$lib/site/read-around.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, url, parent }) => {
  const { person, session } = await parent();
  const leads = person.role === 'coordinator' || person.role === 'site-lead';
  const query = { siteId: params.id };
  const [sites, bins, containers, around, materials, readings] = await Promise.all([
    need(fetch, 'listSites'),
    need(fetch, 'listBins', { query }),
    need(fetch, 'listContainers', { query }),
    readAround(fetch, { today: session.today, siteId: params.id, leads }),
    need(fetch, 'listMaterials'),
    need(fetch, 'listAirReadings', { params }),
  ]);
  const site = sites.items.find((s) => s.id === params.id);
  if (site === undefined) error(404, { message: 'not-found', code: 'not-found' });
  return {
    site,
    bins: bins.items,
    containers: containers.items.filter((c) => !c.archived),
    around,
    beddings: materials.items.filter((m) => m.kind === 'bedding' && !m.hidden),
    readings: readings.items.length,
    saved: url.searchParams.has('saved'),
  };
};
