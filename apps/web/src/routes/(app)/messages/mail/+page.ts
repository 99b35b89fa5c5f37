import { need } from '$lib/api/call.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch }) => {
  const [mail, setting] = await Promise.all([need(fetch, 'readMail'), need(fetch, 'readMessageSetting')]);
  return { mail, hasAddress: setting.confirmed };
};
