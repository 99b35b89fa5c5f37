import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch }) => {
  const [links, sites] = await Promise.all([need(fetch, 'listLinks'), need(fetch, 'listSites')]);
  return { links: links.items, sites: sites.items.filter((s) => !s.archived) };
};
