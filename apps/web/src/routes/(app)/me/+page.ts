import { need } from '$lib/api/call.ts';
import { readConsentWords } from '$lib/consents/words.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, parent, url }) => {
  const { person } = await parent();
  const [devices, consents, wordings, consentWords] = await Promise.all([
    need(fetch, 'listDevices'),
    need(fetch, 'listConsentsOf', { params: { id: person.id } }),
    need(fetch, 'listConsentWordings'),
    readConsentWords(),
  ]);
  return {
    devices: devices.items,
    ...{ consents: consents.items, wording: wordings.items[0], consentWords },
    done: url.searchParams.get('done'),
  };
};
