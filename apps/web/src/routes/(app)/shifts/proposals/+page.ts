import { need } from '$lib/api/call.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, parent, url, depends }) => {
  depends('app:shifts');
  const { person } = await parent();
  const sites = (await need(fetch, 'listSites')).items.filter(
    (s) => !s.archived && (person.siteIds.length === 0 || person.siteIds.includes(s.id)),
  );
  const siteId = sites.find((s) => s.id === url.searchParams.get('site'))?.id ?? sites[0]?.id ?? '';
  const proposals = siteId === '' ? { items: [], unplaced: [], dropped: [] } : await need(fetch, 'listProposals', { query: { siteId } });
  return { sites, siteId, proposals, id: uuid7(), done: url.searchParams.get('done') };
};
