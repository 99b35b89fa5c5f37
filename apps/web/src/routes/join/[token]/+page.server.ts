import { redirect } from '@sveltejs/kit';
import { act, text } from '$lib/errors/act.ts';
import { paths } from '$lib/paths/paths.ts';
import { deviceLabel } from '$lib/people/device-label.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const given = (name: string) => (text(form, name) === '' ? {} : { [name]: text(form, name) });
    const body = {
      token: params.token,
      deviceLabel: deviceLabel(request.headers.get('user-agent') ?? ''),
      ...given('name'),
      ...given('email'),
      ...given('password'),
    };
    const outcome = await act(fetch, 'useInvite', { body }, form);
    return outcome.ok ? redirect(303, paths.board) : outcome.refused;
  },
};
