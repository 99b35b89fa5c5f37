import type { Reroute } from '@sveltejs/kit';
import { wordsForOthers } from '$lib/messages/index.ts';
import { isLogPath } from '$lib/paths/paths.ts';

/** No page moves; this is where a browser passes before any page it goes to, so the page's words are fetched here. */
export const reroute: Reroute = async ({ url }) => {
  if (!isLogPath(url.pathname)) await wordsForOthers();
};
