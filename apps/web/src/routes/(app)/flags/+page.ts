import { wordsForFlags } from '$lib/messages/index.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async () => wordsForFlags();
