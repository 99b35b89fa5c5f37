import { redirect } from '@sveltejs/kit';
import { playStory } from '$lib/made-up/play.ts';
import { goOn, queryOfStory, readStory } from '$lib/made-up/story.ts';
import { readShownQuantity } from '$lib/what-if/shown-quantities.ts';
import type { PageLoad } from './$types';

/** Asks nobody: the story stands in the address and is played here, in a browser beside the page. */
export const load: PageLoad = async ({ parent, url }) => {
  await parent();
  const story = readStory(url.searchParams);
  const shown = url.searchParams.get('show');
  // A sent form says what is done next; the address that stays says what was done.
  if (url.searchParams.has('on'))
    redirect(303, `${url.pathname}?${[queryOfStory(goOn(story, url.searchParams)), shown && `show=${shown}`].filter(Boolean).join('&')}`);
  return { story, days: await playStory(story), quantity: readShownQuantity(shown) };
};
