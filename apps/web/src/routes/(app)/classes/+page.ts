import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => {
  const [classes, sites] = await Promise.all([need(fetch, 'listClasses'), need(fetch, 'listSites')]);
  return {
    classes: classes.items.filter((c) => !c.archived),
    sites: sites.items.filter((s) => !s.archived),
    done: url.searchParams.get('done'),
  };
};
