import { redirect } from '@sveltejs/kit';
import type { BodyOf } from '$lib/api/calls.ts';
import { act, text } from '$lib/errors/act.ts';
import { ownPath } from '$lib/paths/paths.ts';
import type { Actions } from './$types';

type Pictures = BodyOf<'enterAsPupil'>['pictures'];

export const actions: Actions = {
  default: async ({ request, fetch, url }) => {
    const form = await request.formData();
    const pictures = form.getAll('picture').map(String) as Pictures;
    const outcome = await act(fetch, 'enterAsPupil', { body: { classCode: text(form, 'classCode'), pictures } }, form);
    return outcome.ok ? redirect(303, ownPath(url.searchParams.get('next'))) : outcome.refused;
  },
};
