import { call } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

/** Looking at an invite, by a person or a mail scanner, changes nothing: only the press below does. */
export const load: PageLoad = async ({ fetch, params }) => {
  const outcome = await call(fetch, 'readInviteCard', { params });
  return { card: outcome.ok ? outcome.data : null };
};
