import { error, redirect } from '@sveltejs/kit';
import { wordsForLeads } from '$lib/messages/index.ts';
import { paths } from '$lib/paths/paths.ts';
import type { LayoutLoad } from './$types';

/** Behind this everybody has signed in; the API decides again on every call. */
export const load: LayoutLoad = async ({ parent, url }) => {
  const { session, sessionFrom } = await parent();
  if (sessionFrom === null) error(503, { message: 'unavailable', code: 'unavailable' });
  if (session.person === null || session.programme === null)
    redirect(303, `${paths.signIn}?next=${encodeURIComponent(url.pathname + url.search)}`);
  if (session.person.secondStepMissing && url.pathname !== paths.secondStep)
    redirect(303, `${paths.secondStep}?next=${encodeURIComponent(url.pathname + url.search)}`);
  if (session.person.role === 'coordinator' || session.person.role === 'site-lead') await wordsForLeads();
  return { person: session.person, programme: session.programme };
};
