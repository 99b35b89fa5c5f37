import { redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { typedCode } from '$lib/bin/typed-code.ts';
import { paths } from '$lib/paths/paths.ts';
import type { PageLoad } from './$types';

/**
 * Where a bin's label leads: to its log for whoever is signed in, to the door for everybody else.
 *
 * The list of bins finds the log, also from what a phone keeps for days without a signal, says so
 * when the code is not known, and asks for a second step that is still to come.
 */
export const load: PageLoad = async ({ fetch, params, parent }) => {
  const { session } = await parent();
  if (session.programme === null) redirect(303, paths.setup);
  const code = typedCode(params.code);
  if (session.person !== null) redirect(303, paths.findBy(code));
  return need(fetch, 'readBinCard', { params: { code } });
};
