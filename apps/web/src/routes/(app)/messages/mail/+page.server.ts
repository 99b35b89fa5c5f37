import { redirect } from '@sveltejs/kit';
import { act } from '$lib/errors/act.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const outcome = await act(fetch, 'testMail', { body: {} }, await request.formData());
    return outcome.ok ? redirect(303, farPaths.mail) : outcome.refused;
  },
};
