import { fail, redirect } from '@sveltejs/kit';
import { readConsentWords } from '$lib/consents/words.ts';
import { act, text, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import type { Actions } from './$types';

const MOST = 8;

export const actions: Actions = {
  default: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const w = (await readConsentWords()).report;
    const photos = form.getAll('photo').map((id) => ({ photoId: String(id), alt: text(form, `alt-${id}`) }));
    const faults = photos.filter(({ alt }) => alt === '').map(({ photoId }) => ({ field: `alt-${photoId}`, text: w.needWords }));
    if (photos.length > MOST) faults.push({ field: `use-${photos[MOST]?.photoId}`, text: w.tooMany });
    if (faults.length > 0)
      return fail(400, { fault: incomplete(faults), typed: typedOf(form), ticked: photos.map(({ photoId }) => photoId) });
    const outcome = await act(fetch, 'putSeasonPhotos', { params, body: { photos } }, form);
    if (outcome.ok) redirect(303, `${farPaths.seasonPhotos(params.id)}?done=saved`);
    return fail(outcome.refused.status, { ...outcome.refused.data, ticked: photos.map(({ photoId }) => photoId) });
  },
};
