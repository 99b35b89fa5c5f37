import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => {
  const id = url.searchParams.get('person');
  const { items } = await need(fetch, 'listPeople');
  return { somebody: items.find((one) => one.id === id) ?? null };
};
