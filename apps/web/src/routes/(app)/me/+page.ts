import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => ({
  devices: (await need(fetch, 'listDevices')).items,
  done: url.searchParams.get('done'),
});
