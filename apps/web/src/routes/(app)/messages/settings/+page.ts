import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => {
  const [setting, links] = await Promise.all([need(fetch, 'readMessageSetting'), need(fetch, 'listCalendarLinks')]);
  return { setting, links: links.items, isSaved: url.searchParams.get('done') === 'saved' };
};
