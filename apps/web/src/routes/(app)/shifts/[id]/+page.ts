import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, depends }) => {
  depends('app:shifts');
  const [shift, bins] = await Promise.all([need(fetch, 'readShift', { params }), need(fetch, 'listBins')]);
  return { shift, bins: bins.items };
};
