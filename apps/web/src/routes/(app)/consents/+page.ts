import { need } from '$lib/api/call.ts';
import { readConsentWords } from '$lib/consents/words.ts';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ fetch, url, depends }) => {
  depends('app:consents');
  const [w, photos, consents, wordings, classes, bins] = await Promise.all([
    readConsentWords(),
    need(fetch, 'listPhotosOfPeople'),
    need(fetch, 'listConsents'),
    need(fetch, 'listConsentWordings'),
    need(fetch, 'listClasses'),
    need(fetch, 'listBins'),
  ]);
  return {
    ...{ w, on: photos.on, photos: photos.items, consents: consents.items, wordings: wordings.items },
    pupils: classes.items.flatMap(({ name, pupils }) => pupils.map((pupil) => ({ value: pupil.id, word: `${pupil.name}, ${name}` }))),
    bins: bins.items.map(({ id, code, name }) => ({ value: id, word: `${code}, ${name}` })),
    codes: Object.fromEntries(bins.items.map(({ id, code }) => [id, code])),
    done: url.searchParams.get('done'),
  };
};
