import { need } from '$lib/api/call.ts';
import { wordsForLeads } from '$lib/messages/index.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch }) => {
  // Whoever begins a programme coordinates it.
  const [setup] = await Promise.all([need(fetch, 'readSetup'), wordsForLeads()]);
  return { setup, zones: Intl.supportedValuesOf('timeZone') };
};
