import { fail, redirect } from '@sveltejs/kit';
import { act, typedOf } from '$lib/errors/act.ts';
import { incomplete } from '$lib/errors/form-fault.ts';
import { farPaths } from '$lib/paths/far-paths.ts';
import { readClimateForm } from '$lib/season/read-climate-form.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  save: async ({ request, fetch }) => {
    const form = await request.formData();
    const read = readClimateForm(form);
    if (!read.ok) return fail(400, { fault: incomplete(read.faults), typed: typedOf(form) });
    const outcome = await act(fetch, 'confirmClimateFactors', { body: read.body }, form);
    return outcome.ok ? redirect(303, `${farPaths.climate}?done=saved`) : outcome.refused;
  },
  remove: async ({ request, fetch }) => {
    const outcome = await act(fetch, 'removeClimateFactors', {}, await request.formData());
    return outcome.ok ? redirect(303, `${farPaths.climate}?done=removed`) : outcome.refused;
  },
};
