import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, parent, url }) => {
  const { person } = await parent();
  const id = url.searchParams.get('person') ?? person.id;
  const [when, sites, people] = await Promise.all([
    need(fetch, 'readAvailability', { params: { id } }),
    need(fetch, 'listSites'),
    // How to reach people is looked at only where somebody else's page is meant.
    id === person.id ? null : need(fetch, 'listPeople'),
  ]);
  return {
    when,
    sites: sites.items.filter((site) => !site.archived),
    somebody: people?.items.find((one) => one.id === id)?.name ?? null,
    isSaved: url.searchParams.has('saved'),
  };
};
