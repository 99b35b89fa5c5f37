import { addressOf } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = () => ({ zip: addressOf('readExport') });
