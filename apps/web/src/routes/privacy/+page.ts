import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch }) => ({ policy: await need(fetch, 'readPrivacy') });
