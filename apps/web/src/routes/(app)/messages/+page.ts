import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch }) => ({ told: await need(fetch, 'listMessages', { query: { limit: 50 } }) });
