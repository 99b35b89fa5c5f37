import { redirect } from '@sveltejs/kit';
import { ownPath } from '$lib/paths/paths.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ parent, url }) => {
  const { session } = await parent();
  const next = ownPath(url.searchParams.get('next'));
  if (session.person !== null) redirect(303, next);
  return { next };
};
