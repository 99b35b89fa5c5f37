import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch }) => ({ bins: (await need(fetch, 'listBins')).items.filter((b) => b.state !== 'retired') });
