import { WEEKDAYS } from '@middenry/domain';
import { need } from '$lib/api/call.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, parent, url }) => {
  const { person } = await parent();
  const [sites, bins] = await Promise.all([need(fetch, 'listSites'), need(fetch, 'listBins')]);
  const open = sites.items.filter((s) => !s.archived && (person.siteIds.length === 0 || person.siteIds.includes(s.id)));
  const siteId = open.find((s) => s.id === url.searchParams.get('site'))?.id ?? open[0]?.id ?? null;
  const times = siteId === null ? null : await need(fetch, 'readSiteTimes', { params: { id: siteId } });
  return {
    sites: open,
    siteId,
    bins: bins.items.filter((b) => b.siteId === siteId && b.state !== 'retired'),
    opening: times?.usual === false ? times.open : [],
    ids: WEEKDAYS.map(() => uuid7()),
  };
};
