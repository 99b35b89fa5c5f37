import { need } from '$lib/api/call.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, parent, url, depends }) => {
  depends('app:shifts');
  const { person } = await parent();
  const [terms, sites] = await Promise.all([need(fetch, 'listSignUpSeasons'), need(fetch, 'listSites')]);
  const mine = sites.items.filter((s) => !s.archived && (person.siteIds.length === 0 || person.siteIds.includes(s.id)));
  const leads = person.role === 'coordinator' || person.role === 'site-lead';
  return { terms: terms.items, sites: mine, leads, id: uuid7(), now: new Date().toISOString(), done: url.searchParams.get('done') };
};
