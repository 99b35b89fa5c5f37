import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => {
  const [stock, moves] = await Promise.all([need(fetch, 'readCastingsStock'), need(fetch, 'listCastingsMoves')]);
  return { stock: stock.items, moves: moves.items, done: url.searchParams.get('done') };
};
