import { wordsForOthers } from '$lib/messages/index.ts';
import type { PageLoad } from './$types';

/** Everything on it is on the phone; only its words may have to be fetched. */
export const load: PageLoad = async () => {
  await wordsForOthers();
};
