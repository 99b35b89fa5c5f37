import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => {
  const [people, invites, sites] = await Promise.all([need(fetch, 'listPeople'), need(fetch, 'listInvites'), need(fetch, 'listSites')]);
  return {
    people: people.items,
    invites: invites.items,
    sites: sites.items.filter((s) => !s.archived),
    done: url.searchParams.get('done'),
  };
};
