import { call } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

/** Looking, by a person or a mail scanner, changes nothing: only a press does. */
export const load: PageLoad = async ({ fetch, params }) => {
  const outcome = await call(fetch, 'readReply', { params });
  return { reply: outcome.ok ? outcome.data : null };
};
