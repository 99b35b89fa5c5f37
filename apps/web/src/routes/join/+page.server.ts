import { fail, redirect } from '@sveltejs/kit';
import { act, text } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { openInvite } from '$lib/handed/invite.ts';
import { secretIn } from '$lib/handed/secret-in.ts';
import { words } from '$lib/messages/index.ts';
import { paths } from '$lib/paths/paths.ts';
import { deviceLabel } from '$lib/people/device-label.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  /** For whoever has no scripts: with them the page asks by itself. */
  open: async ({ request, fetch }) => {
    const secret = secretIn(text(await request.formData(), 'link'));
    if (secret === null) return fail(422, { fault: incomplete([{ field: 'link', text: words.handed.notWhole }]), opened: null });
    return { opened: await openInvite(fetch, secret) };
  },
  use: async ({ request, fetch }) => {
    const form = await request.formData();
    const given = (name: string) => (text(form, name) === '' ? {} : { [name]: text(form, name) });
    const token = text(form, 'token');
    const body = {
      token,
      deviceLabel: deviceLabel(request.headers.get('user-agent') ?? ''),
      ...given('name'),
      ...given('email'),
      ...given('password'),
    };
    const outcome = await act(fetch, 'useInvite', { body }, form);
    if (outcome.ok) redirect(303, paths.board);
    const { status, data } = outcome.refused;
    return fail(status, { ...data, opened: await openInvite(fetch, token) });
  },
};
