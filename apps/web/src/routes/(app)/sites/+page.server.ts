import { redirect } from '@sveltejs/kit';
import { act, text } from '$lib/errors/act.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(
      fetch,
      'addSite',
      { body: { id: text(form, 'id') || uuid7(), name: text(form, 'name'), timeZone: text(form, 'timeZone'), note: text(form, 'note') } },
      form,
    );
    return outcome.ok ? redirect(303, farPaths.site(outcome.data.id)) : outcome.refused;
  },
};
