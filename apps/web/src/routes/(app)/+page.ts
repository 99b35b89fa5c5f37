import { need } from '$lib/api/call.ts';
import { readOrder } from '$lib/board/order.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url, depends }) => {
  depends('app:board');
  return { board: await need(fetch, 'readBoard'), order: readOrder(url.searchParams.get('order')) };
};
