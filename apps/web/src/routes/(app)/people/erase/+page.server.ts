import { redirect } from '@sveltejs/kit';
import { act, text } from '$lib/errors/act.ts';
import { paths } from '$lib/paths/paths.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'erasePerson', { params: { id: text(form, 'personId') } }, form);
    return outcome.ok ? redirect(303, `${paths.people}?done=erased`) : outcome.refused;
  },
};
