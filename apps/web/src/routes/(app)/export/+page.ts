import { farAddressOf } from '$lib/api/far-address.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = () => ({ zip: farAddressOf('readExport') });
