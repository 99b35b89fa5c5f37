import { need } from '$lib/api/call.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => {
  const [sites, bins] = await Promise.all([need(fetch, 'listSites'), need(fetch, 'listBins')]);
  return {
    sites: sites.items.filter((s) => !s.archived),
    nextPlace: Math.max(0, ...bins.items.map((b) => b.placeOrder + 1)),
    siteId: url.searchParams.get('site'),
    id: uuid7(),
  };
};
