import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url }) => {
  const [keep, mail] = await Promise.all([need(fetch, 'readKeep'), need(fetch, 'readMail')]);
  return { keep, mail, made: url.searchParams.has('made') };
};
