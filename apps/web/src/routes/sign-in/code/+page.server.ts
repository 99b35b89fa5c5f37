import { redirect } from '@sveltejs/kit';
import { act, text } from '$lib/errors/act.ts';
import { ownPath } from '$lib/paths/paths.ts';
import { deviceLabel } from '$lib/people/device-label.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch, url }) => {
    const form = await request.formData();
    const outcome = await act(
      fetch,
      'useDeviceCode',
      { body: { code: text(form, 'code'), deviceLabel: deviceLabel(request.headers.get('user-agent') ?? '') } },
      form,
    );
    return outcome.ok ? redirect(303, ownPath(url.searchParams.get('next'))) : outcome.refused;
  },
};
