import { call } from '$lib/api/call.ts';
import { readSelection } from '$lib/board/selection.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, params, url }) => {
  const outcome = await call(fetch, 'readLinkedBoard', { params });
  return { board: outcome.ok ? outcome.data : null, selection: readSelection(url.searchParams) };
};
