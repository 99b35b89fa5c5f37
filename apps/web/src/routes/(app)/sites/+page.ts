import { need } from '$lib/api/call.ts';
import { readAround } from '$lib/site/read-around.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, parent }) => {
  const { person, session } = await parent();
  const leads = person.role === 'coordinator' || person.role === 'site-lead';
  const [sites, around] = await Promise.all([need(fetch, 'listSites'), readAround(fetch, { today: session.today, leads })]);
  return { sites: sites.items.filter((s) => !s.archived), around, zones: Intl.supportedValuesOf('timeZone') };
};
