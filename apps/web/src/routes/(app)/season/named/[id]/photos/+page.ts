import { error } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { readConsentWords } from '$lib/consents/words.ts';
import { keepsSeason } from '$lib/season/keeps.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, parent, url }) => {
  const { person } = await parent();
  const season = (await need(fetch, 'listSeasons')).items.find((one) => one.id === params.id);
  if (!season || !keepsSeason(person, season.siteId)) error(404, { message: 'not-found', code: 'not-found' });
  const [photos, w] = await Promise.all([need(fetch, 'readSeasonPhotos', { params }), readConsentWords()]);
  return { season, photos, w, done: url.searchParams.get('done') };
};
