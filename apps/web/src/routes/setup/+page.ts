import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch }) => ({ setup: await need(fetch, 'readSetup'), zones: Intl.supportedValuesOf('timeZone') });
