import { call } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

/** The wall for a screen in a hall: by a reader's link, with nobody signed in. */
export const load: PageLoad = async ({ fetch, params, url }) => {
  const outcome = await call(fetch, 'readLinkedBoard', { params });
  return { board: outcome.ok ? outcome.data : null, token: params.token, query: url.search };
};
