import { need } from '$lib/api/call.ts';
import { farAddressOf } from '$lib/api/far-address.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, url }) => ({
  published: await need(fetch, 'readPublishedSeason', { params }),
  pdf: farAddressOf('readPublishedSeasonPdf', params),
  csv: farAddressOf('readPublishedSeasonCsv', params),
  xlsx: farAddressOf('readPublishedSeasonXlsx', params),
  json: farAddressOf('readPublishedSeason', params),
  done: url.searchParams.get('done'),
});
