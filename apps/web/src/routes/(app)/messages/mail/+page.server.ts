import { redirect } from '@sveltejs/kit';
import { act } from '$lib/errors/act.ts';
import { paths } from '$lib/paths/paths.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const outcome = await act(fetch, 'testMail', { body: {} }, await request.formData());
    return outcome.ok ? redirect(303, paths.mail) : outcome.refused;
  },
};
