import { fail, redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { act, text, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { paths } from '$lib/paths/paths.ts';
import { readWhen } from '$lib/rota/read-when.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const form = await request.formData();
    const read = readWhen(form);
    if (!read.ok) return fail(400, { fault: incomplete(read.faults), typed: typedOf(form) });
    const me = (await need(fetch, 'readSession')).person?.id ?? '';
    const id = text(form, 'personId') || me;
    const outcome = await act(fetch, 'putAvailability', { params: { id }, body: read.body }, form);
    return outcome.ok ? redirect(303, `${paths.when(id === me ? undefined : id)}${id === me ? '?' : '&'}saved=1`) : outcome.refused;
  },
};
