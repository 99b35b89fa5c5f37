import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch }) => {
  const [runs, sites] = await Promise.all([need(fetch, 'listRotaRuns'), need(fetch, 'listSites')]);
  return { runs: runs.items, sites: sites.items.filter((site) => !site.archived) };
};
