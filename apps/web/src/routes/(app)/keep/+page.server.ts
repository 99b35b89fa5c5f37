import { redirect } from '@sveltejs/kit';
import { act } from '$lib/errors/act.ts';
import { paths } from '$lib/paths/paths.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  backup: async ({ request, fetch }) => {
    const outcome = await act(fetch, 'addBackup', { body: {} as never }, await request.formData());
    return outcome.ok ? redirect(303, `${paths.keep}?made=1`) : outcome.refused;
  },
  renew: async ({ request, fetch }) => {
    const outcome = await act(fetch, 'renewDemonstration', { body: {} as never }, await request.formData());
    return outcome.ok ? { renewing: true } : outcome.refused;
  },
};
