import { need } from '$lib/api/call.ts';
import type { LayoutLoad } from './$types';

/** Who is here and how numbers look for them; every page leans on it. */
export const load: LayoutLoad = async ({ fetch, depends }) => {
  depends('app:session');
  return { session: await need(fetch, 'readSession') };
};
