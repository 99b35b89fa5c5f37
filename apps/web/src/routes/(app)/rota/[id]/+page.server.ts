import { redirect } from '@sveltejs/kit';
import { act, text } from '$lib/errors/act.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  send: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const proposalIds = form.getAll('proposalId').map(String);
    if (proposalIds.length === 0) redirect(303, farPaths.rotaRun(params.id));
    const body = { id: text(form, 'id') || uuid7(), proposalIds };
    const outcome = await act(fetch, 'sendInvitations', { params: { id: params.id }, body }, form);
    return outcome.ok ? redirect(303, `${farPaths.rotaRun(params.id)}?sent=1`) : outcome.refused;
  },
};
