import { need } from '$lib/api/call.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch }) => {
  const [sites, bins] = await Promise.all([need(fetch, 'listSites'), need(fetch, 'listBins')]);
  return { sites: sites.items.filter((s) => !s.archived), bins: bins.items.filter((b) => b.state !== 'retired'), id: uuid7() };
};
