import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch }) => ({
  sites: (await need(fetch, 'listSites')).items.filter((s) => !s.archived),
  zones: Intl.supportedValuesOf('timeZone'),
});
