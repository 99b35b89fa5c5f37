import { redirect } from '@sveltejs/kit';
import { ownPath, paths } from '$lib/paths/paths.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ parent, url }) => {
  const { session } = await parent();
  const next = ownPath(url.searchParams.get('next'));
  if (session.programme === null) redirect(303, paths.setup);
  if (session.person !== null) redirect(303, next);
  return { next };
};
