import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, url, depends }) => {
  depends('app:rota');
  return { run: await need(fetch, 'readRotaRun', { params }), isSent: url.searchParams.has('sent') };
};
