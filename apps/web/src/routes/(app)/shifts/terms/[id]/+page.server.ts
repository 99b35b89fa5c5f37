import { fail, redirect } from '@sveltejs/kit';
import { act, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { readWishes } from '$lib/shift/read-term-form.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch, params }) => {
    const form = await request.formData();
    const read = readWishes(form, form.getAll('shift').map(String));
    if (!read.ok) return fail(400, { fault: incomplete(read.faults), typed: typedOf(form) });
    const outcome = await act(fetch, 'putWishes', { params, body: read.body }, form);
    return outcome.ok ? redirect(303, `${farPaths.terms}?done=wished`) : outcome.refused;
  },
};
