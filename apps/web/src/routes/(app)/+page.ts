import { need } from '$lib/api/call.ts';
import { readSelection } from '$lib/board/selection.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url, depends }) => {
  depends('app:board');
  return { board: await need(fetch, 'readBoard'), selection: readSelection(url.searchParams) };
};
