import { fail, redirect } from '@sveltejs/kit';
import { need } from '$lib/api/call.ts';
import { readNewBin } from '$lib/bin/read-bin-form.ts';
import { act, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { paths } from '$lib/paths/paths.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  default: async ({ request, fetch }) => {
    const [form, session] = await Promise.all([request.formData(), need(fetch, 'readSession')]);
    const read = readNewBin(form, session.today);
    if (!read.ok) return fail(400, { fault: incomplete(read.faults), typed: typedOf(form) });
    const outcome = await act(fetch, 'addBin', { body: read.body }, form);
    return outcome.ok ? redirect(303, paths.bin(outcome.data.id)) : outcome.refused;
  },
};
