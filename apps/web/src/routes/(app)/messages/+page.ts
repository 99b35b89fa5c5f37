import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch }) => {
  const [told, asked] = await Promise.all([need(fetch, 'listMessages', { query: { limit: 50 } }), need(fetch, 'listInvitations')]);
  return { told, asked: asked.items };
};
