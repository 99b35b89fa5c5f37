import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => ({
  materials: (await need(fetch, 'listMaterials')).items,
  added: url.searchParams.has('added'),
  /** A food that a list named and we do not know, and the way back to that list. */
  wanted: url.searchParams.get('name') ?? '',
  next: url.searchParams.get('next') ?? '',
});
