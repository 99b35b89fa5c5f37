import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

const CHOICES = [7, 14, 28] as const;

export const load: PageLoad = async ({ fetch, url }) => {
  const days = CHOICES.find((count) => String(count) === url.searchParams.get('days')) ?? CHOICES[0];
  const siteId = url.searchParams.get('siteId') ?? '';
  const [sites, said] = await Promise.all([
    need(fetch, 'listSites'),
    need(fetch, 'readGroupText', { query: { days, ...(siteId === '' ? {} : { siteId }) } }),
  ]);
  return { text: said.text, days, siteId, choices: CHOICES, sites: sites.items.filter((site) => !site.archived) };
};
