import { need } from '$lib/api/call.ts';
import { farAddressOf } from '$lib/api/far-address.ts';
import { readConsentWords } from '$lib/consents/words.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, url }) => ({
  published: await need(fetch, 'readPublishedSeason', { params }),
  pdf: farAddressOf('readPublishedSeasonPdf', params),
  csv: farAddressOf('readPublishedSeasonCsv', params),
  xlsx: farAddressOf('readPublishedSeasonXlsx', params),
  json: farAddressOf('readPublishedSeason', params),
  photos: await need(fetch, 'readPublishedSeasonPhotos', { params }),
  consentWords: await readConsentWords(),
  done: url.searchParams.get('done'),
});
