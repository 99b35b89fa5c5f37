import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params }) => {
  const [bin, sites] = await Promise.all([need(fetch, 'readBin', { params }), need(fetch, 'listSites')]);
  return { bin, sites: sites.items };
};
