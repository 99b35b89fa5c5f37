import { error } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, parent, url }) => {
  const { person } = await parent();
  // What is not yours is as if it were not there.
  if (person.role !== 'coordinator') error(404, { message: 'not-found', code: 'not-found' });
  const { factors, sets } = await need(fetch, 'readClimateFactors');
  const chosen = sets.find(({ id }) => id === url.searchParams.get('set'));
  return { factors, sets, chosen: chosen ?? null, done: url.searchParams.get('done') };
};
