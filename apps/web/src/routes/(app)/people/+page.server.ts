import { redirect } from '@sveltejs/kit';
import type { BodyOf } from '$lib/api/calls.ts';
import { act, text } from '$lib/errors/act.ts';
import { paths } from '$lib/paths/paths.ts';
import { qrSvg } from '$lib/people/qr.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Actions } from './$types';

type InviteRole = NonNullable<BodyOf<'addInvite'>['role']>;

export const actions: Actions = {
  invite: async ({ request, fetch, url }) => {
    const form = await request.formData();
    const body = {
      id: text(form, 'id') || uuid7(),
      name: text(form, 'name') || null,
      role: text(form, 'role') as InviteRole,
      siteIds: form.getAll('siteId').map(String),
    };
    const outcome = await act(fetch, 'addInvite', { body }, form);
    if (!outcome.ok) return outcome.refused;
    const link = url.origin + outcome.data.path;
    return { invite: { link, qr: await qrSvg(link) } };
  },
  revoke: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'revokeInvite', { params: { id: text(form, 'inviteId') } }, form);
    return outcome.ok ? redirect(303, `${paths.people}?done=revoked`) : outcome.refused;
  },
  change: async ({ request, fetch }) => {
    const form = await request.formData();
    const body: BodyOf<'changePerson'> = {};
    if (form.has('role')) body.role = text(form, 'role') as NonNullable<BodyOf<'changePerson'>['role']>;
    if (form.has('disabled')) body.disabled = text(form, 'disabled') === 'yes';
    if (form.has('owner')) body.owner = text(form, 'owner') === 'yes';
    const outcome = await act(fetch, 'changePerson', { params: { id: text(form, 'personId') }, body }, form);
    return outcome.ok ? redirect(303, `${paths.people}?done=changed`) : outcome.refused;
  },
  code: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'addDeviceCode', { body: { personId: text(form, 'personId') } }, form);
    return outcome.ok ? { code: { ...outcome.data, name: text(form, 'personName') } } : outcome.refused;
  },
};
