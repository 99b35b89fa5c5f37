import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => ({
  materials: (await need(fetch, 'listMaterials')).items,
  added: url.searchParams.has('added'),
});
