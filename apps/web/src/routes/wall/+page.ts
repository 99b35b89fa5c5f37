import { redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { paths } from '$lib/paths/paths.ts';
import type { PageLoad } from './$types';

/** Nothing here is read anew by what changes: the screen asks for itself, so that a server gone never takes its picture away. */
export const load: PageLoad = async ({ fetch, parent, url }) => {
  const { session } = await parent();
  if (session.person === null || session.programme === null || session.person.secondStepMissing)
    redirect(303, `${paths.signIn}?next=${encodeURIComponent(url.pathname + url.search)}`);
  return { board: await need(fetch, 'readBoard'), programme: session.programme, query: url.search };
};
