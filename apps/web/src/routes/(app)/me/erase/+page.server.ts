import { redirect } from '@sveltejs/kit';
import { act, text } from '$lib/errors/act.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const form = await request.formData();
    const [password, code] = [text(form, 'password'), text(form, 'code')];
    const body = { ...(password === '' ? {} : { password }), ...(code === '' ? {} : { code }) };
    const outcome = await act(fetch, 'eraseMe', { body }, form);
    return outcome.ok ? redirect(303, farPaths.erased) : outcome.refused;
  },
};
