import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => ({ keep: await need(fetch, 'readKeep'), made: url.searchParams.has('made') });
