import { redirect } from '@sveltejs/kit';
import { act, text } from '$lib/errors/act.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const form = await request.formData();
    const siteId = text(form, 'siteId');
    const id = text(form, 'id') || uuid7();
    const body = { id, from: text(form, 'from'), to: text(form, 'to'), siteIds: siteId === '' ? [] : [siteId] };
    const outcome = await act(fetch, 'fillGaps', { body }, form);
    return outcome.ok ? redirect(303, farPaths.rotaRun(outcome.data.id)) : outcome.refused;
  },
};
