import { redirect } from '@sveltejs/kit';
import { act } from '$lib/errors/act.ts';
import { paths } from '$lib/paths/paths.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const form = await request.formData();
    const ids = form.getAll('id').map(String);
    const outcome = await act(fetch, 'readMessages', { body: { ids } }, form);
    return outcome.ok ? redirect(303, paths.messages) : outcome.refused;
  },
};
