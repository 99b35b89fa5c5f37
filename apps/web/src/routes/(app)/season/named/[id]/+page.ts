import { error } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { keepsSeason } from '$lib/season/keeps.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, parent, url }) => {
  const { person } = await parent();
  const season = (await need(fetch, 'listSeasons')).items.find((one) => one.id === params.id);
  // What is not yours is as if it were not there.
  if (!season || !keepsSeason(person, season.siteId)) error(404, { message: 'not-found', code: 'not-found' });
  return { season, done: url.searchParams.get('done') };
};
