import { addressOf, need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, url }) => ({
  published: await need(fetch, 'readPublishedSeason', { params }),
  pdf: addressOf('readPublishedSeasonPdf', params),
  json: addressOf('readPublishedSeason', params),
  done: url.searchParams.get('done'),
});
