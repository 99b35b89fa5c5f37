import { error } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, url }) => {
  const query = { siteId: params.id };
  const [sites, bins, containers, stock, materials, readings] = await Promise.all([
    need(fetch, 'listSites'),
    need(fetch, 'listBins', { query }),
    need(fetch, 'listContainers', { query }),
    need(fetch, 'readBeddingStock', { query }),
    need(fetch, 'listMaterials'),
    need(fetch, 'listAirReadings', { params }),
  ]);
  const site = sites.items.find((s) => s.id === params.id);
  if (site === undefined) error(404, { message: 'not-found', code: 'not-found' });
  return {
    site,
    bins: bins.items,
    containers: containers.items.filter((c) => !c.archived),
    stock: stock.items,
    beddings: materials.items.filter((m) => m.kind === 'bedding' && !m.hidden),
    readings: readings.items.length,
    saved: url.searchParams.has('saved'),
  };
};
