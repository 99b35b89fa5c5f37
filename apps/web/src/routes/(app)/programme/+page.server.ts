import { redirect } from '@sveltejs/kit';
import { act, text } from '$lib/errors/act.ts';
import { paths } from '$lib/paths/paths.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const form = await request.formData();
    const units = text(form, 'units') === 'us' ? 'us' : 'metric';
    const outcome = await act(fetch, 'changeProgramme', { body: { name: text(form, 'name'), units, locale: text(form, 'locale') } }, form);
    return outcome.ok ? redirect(303, `${paths.programme}?saved=1`) : outcome.refused;
  },
};
