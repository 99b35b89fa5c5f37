import { fail, redirect } from '@sveltejs/kit';
import { act, text, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { words } from '$lib/messages/index.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  keep: async ({ request, fetch }) => {
    const form = await request.formData();
    const name = text(form, 'name');
    if (name === '') return fail(400, { fault: incomplete([{ field: 'name', text: words.report.needName }]), typed: typedOf(form) });
    const span = { from: text(form, 'from'), to: text(form, 'to'), siteId: text(form, 'siteId') || null };
    const outcome = await act(fetch, 'addSeason', { body: { id: text(form, 'id'), name, ...span } }, form);
    return outcome.ok ? redirect(303, `${farPaths.seasonOf(span)}&done=kept`) : outcome.refused;
  },
};
