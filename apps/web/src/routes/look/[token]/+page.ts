import { call } from '$lib/api/call.ts';
import { readOrder } from '$lib/board/order.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, url }) => {
  const outcome = await call(fetch, 'readLinkedBoard', { params });
  return { board: outcome.ok ? outcome.data : null, order: readOrder(url.searchParams.get('order')) };
};
